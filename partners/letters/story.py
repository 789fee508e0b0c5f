"""Letters and sheets in a partner's story."""

from __future__ import annotations

from django.utils.translation import gettext as _

from partners.directory.models import Partner
from partners.ground.story import StoryLine
from partners.letters.models import LetterState
from partners.program.desk import Desk
from partners.program.models import Opened


def lines(desk: Desk, partner: Partner) -> list[StoryLine]:
    """What went out to the partner; drafts are no story yet."""
    if not desk.reads(Opened.LETTERS):
        return []
    return [
        StoryLine(
            day=letter.day,
            written_at=letter.created_at,
            what=_("%(title)s: %(state)s") % {"title": letter.title, "state": letter.get_state_display()},
            url=letter.get_absolute_url(),
        )
        for letter in desk.letters.filter(partner=partner).exclude(state=LetterState.DRAFT)
    ]
