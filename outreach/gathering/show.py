"""The facts of the sheet for the night before a show is hung."""

from __future__ import annotations

from typing import Any

from outreach.documents.night_before import Coming, Facts, PanelsOf
from partners.helpers.job_cards import ready_card
from partners.helpers.session_models import Reply, Session
from partners.helpers.show_models import Show
from partners.helpers.show_page import card_for, class_panels
from partners.helpers.show_plan import panels
from partners.program.desk import Desk
from partners.school.models import School

HANGING = "hanging"


def gather(desk: Desk, show: Show, words: dict[str, Any]) -> Facts:
    """Sessions from today to the opening; where none is left, all of the show."""
    language = words.get("language") or desk.program.language
    rows = desk.sessions.filter(show=show, called_off_on=None).select_related("card").order_by("day", "starts", "pk")
    all_sessions = list(rows.prefetch_related("turns__helper"))
    ahead = [one for one in all_sessions if desk.day <= one.day <= show.opens_on]
    sessions = ahead or all_sessions
    cards = [card for card in (card_for(one, language) for one in sessions) if card is not None]
    hanging = next((card for card in cards if card.job == HANGING), None) or ready_card(HANGING, language)
    return Facts(
        language=language,
        paper=desk.program.paper,
        title=show.title,
        opens_on=show.opens_on,
        opens_at=show.opens_at,
        works=show.works,
        works_per_panel=show.works_per_panel,
        panels=panels(show.works, show.works_per_panel),
        place=", ".join(part for part in (show.place, show.school.name if show.school else "") if part),
        bring=things(card.with_what for card in (cards or [hanging]) if card is not None),
        sessions=tuple(coming(one) for one in sessions),
        order=tuple(hanging.steps) if hanging else (),
        phones=phones(desk, show.school, sessions),
        classes=tuple(PanelsOf(one.label, one.works, one.panels) for one in class_panels(desk, show)),
        teacher=desk.signs.teacher,
    )


def things(texts: Any) -> tuple[str, ...]:
    """What the cards say to work with, one thing each, nothing twice."""
    found: dict[str, str] = {}
    for text in texts:
        for thing in text.split(","):
            plain = " ".join(thing.split()).rstrip(".")
            if plain:
                found.setdefault(plain.casefold(), plain)
    return tuple(found.values())


def coming(session: Session) -> Coming:
    yes = [turn.helper for turn in session.turns.all() if turn.reply == Reply.YES]
    names = sorted((helper for helper in yes if helper.name), key=lambda helper: (helper.name_key, helper.pk))
    return Coming(session.day, session.starts, session.ends, session.job, tuple(helper.name for helper in names))


def phones(desk: Desk, school: School | None, sessions: list[Session]) -> tuple[tuple[str, str], ...]:
    """The school first, then everybody who said yes and left a phone, each once."""
    mine = set(desk.helpers.filter(turns__session__in=sessions).values_list("pk", flat=True))
    found = {school.name: school.phone} if school and school.phone else {}
    for session in sessions:
        for turn in session.turns.all():
            if turn.reply == Reply.YES and turn.helper.phone and turn.helper.name and turn.helper_id in mine:
                found.setdefault(turn.helper.name, turn.helper.phone)
    return tuple(found.items())
