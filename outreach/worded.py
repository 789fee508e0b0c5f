"""Every sheet whose words a teacher may say differently, in the order of the page "Your words": the list to add to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from outreach import mail_samples, samples
from outreach.documents import (
    colleague_invitation,
    family_letter,
    family_thanks,
    grant_report,
    gratitude_letter,
    helper_note,
    introduction_letter,
    leave_behind,
    talk_card,
    thanks_note,
    trade_memo,
    year_end_note,
    yearly_summary,
)
from outreach.worded_rows import gifts_that_say, nobody, thanks_that_say
from outreach.wording import (
    considering,
    family,
    gratitude_words,
    helper_thanks,
    introduction,
    project,
    session_mail,
    talk,
    trade,
    year,
    year_end_words,
)
from outreach.wording import family_thanks as to_families
from outreach.wording import grant as grants
from outreach.wording import leave_behind as asking
from outreach.wording.own_words import Part
from partners.gifts.models import ThanksFor
from partners.program.desk import Desk

Rows = Callable[[Desk, Part], Any]


@dataclass(frozen=True)
class Worded:
    """The words of one sheet: where the house's stand by language, what may be changed and by which blanks.

    `slug` is the document that shows an example: of the newest `rows` of the record that say the part, else of
    `sample(language, part)`, whose facts always say it ("" and mail: there is no document). `always` are what the sheet
    says whatever is changed; `verbs` its Spanish ones, that follow whom it speaks to. `reason` is that of the thanks it
    says, where a document says several kinds.
    """

    name: str
    title: str | Promise
    slug: str
    tables: Mapping[str, Any]
    parts: tuple[Part, ...]
    blanks: tuple[str, ...]
    sample: Callable[[str, Part], Any]
    rows: Rows = nobody
    always: tuple[str, ...] = ()
    verbs: tuple[tuple[str, str], ...] = ()
    reason: str = ""

    def part(self, path: str) -> Part:
        """KeyError where there is no such part."""
        return {one.path: one for one in self.parts}[path]


WORDED: tuple[Worded, ...] = (
    Worded(
        name=asking.NAME,
        title=leave_behind.TITLE,
        slug=leave_behind.SLUG,
        tables=asking.SHEET,
        parts=asking.PARTS,
        blanks=asking.BLANKS,
        sample=samples.leave_behind,
        rows=lambda desk, part: desk.partners.order_by("-last_heard_on", "-pk"),
        always=("never", "name_you"),
    ),
    Worded(
        name=gratitude_words.DELIVERY,
        title=gratitude_letter.TITLE,
        slug=gratitude_letter.SLUG,
        tables=gratitude_words.LETTER,
        parts=gratitude_words.DELIVERY_PARTS,
        blanks=gratitude_words.BLANKS,
        sample=samples.delivery,
        rows=gifts_that_say,
        verbs=gratitude_words.SPOKEN_TO,
    ),
    Worded(
        name=gratitude_words.PROMISE,
        title=_("Thank-you note for a promise"),
        slug=thanks_note.SLUG,
        tables=gratitude_words.LETTER,
        parts=gratitude_words.PROMISE_PARTS,
        blanks=gratitude_words.BLANKS,
        sample=samples.promise,
        rows=thanks_that_say(ThanksFor.PROMISE),
        reason=ThanksFor.PROMISE,
        verbs=gratitude_words.SPOKEN_TO,
    ),
    Worded(
        name=considering.NAME,
        title=_("Thank-you note after a no"),
        slug=thanks_note.SLUG,
        tables=considering.NOTE,
        parts=considering.PARTS,
        blanks=considering.BLANKS,
        sample=samples.after_a_no,
        rows=thanks_that_say(ThanksFor.CONSIDERING),
        reason=ThanksFor.CONSIDERING,
    ),
    Worded(
        name=grants.AWARD,
        title=_("Thank-you note for a grant"),
        slug=thanks_note.SLUG,
        tables=grants.GRANT,
        parts=grants.AWARD_PARTS,
        blanks=grants.AWARD_BLANKS,
        sample=samples.award,
        rows=thanks_that_say(ThanksFor.GRANT),
        reason=ThanksFor.GRANT,
    ),
    Worded(
        name=year_end_words.NAME,
        title=year_end_note.TITLE,
        slug=year_end_note.SLUG,
        tables=year_end_words.NOTE,
        parts=year_end_words.PARTS,
        blanks=year_end_words.BLANKS,
        sample=samples.year_end,
        verbs=gratitude_words.SPOKEN_TO,
    ),
    Worded(
        name=grants.REPORT,
        title=grant_report.TITLE,
        slug=grant_report.SLUG,
        tables=grants.GRANT,
        parts=grants.REPORT_PARTS,
        blanks=grants.REPORT_BLANKS,
        sample=samples.report,
        rows=lambda desk, part: desk.grants.awarded().order_by("-pk"),
    ),
    Worded(
        name=helper_thanks.NAME,
        title=helper_note.TITLE,
        slug=helper_note.SLUG,
        tables=helper_thanks.NOTE,
        parts=helper_thanks.PARTS,
        blanks=helper_thanks.BLANKS,
        sample=samples.helper_note,
        rows=lambda desk, part: desk.helpers.filter(forgotten_on=None).order_by("-pk"),
    ),
    *(
        Worded(
            name=session_mail.NAMES[kind],
            title=title,
            slug="",
            tables={language: kinds[kind] for language, kinds in session_mail.MAIL.items()},
            parts=session_mail.PARTS,
            blanks=session_mail.BLANKS,
            sample=mail_samples.mail(kind),
        )
        for kind, title in (
            (session_mail.WEEK, _("Mail to helpers, a week before")),
            (session_mail.DAY, _("Mail to helpers, a day before")),
            (session_mail.SHORT, _("Mail when helpers are missing")),
            (session_mail.CAME, _("Mail of thanks to who came")),
        )
    ),
    Worded(
        name=family.NAME,
        title=family_letter.TITLE,
        slug=family_letter.SLUG,
        tables=family.WORDS,
        parts=family.PARTS,
        blanks=family.BLANKS,
        sample=samples.letter_home,
        rows=lambda desk, part: desk.schools.order_by("pk"),
        always=family.ALWAYS,
    ),
    Worded(
        name=to_families.NAME,
        title=family_thanks.TITLE,
        slug=family_thanks.SLUG,
        tables=to_families.THANKS,
        parts=to_families.PARTS,
        blanks=to_families.BLANKS,
        sample=samples.thanks_home,
        rows=lambda desk, part: desk.schools.order_by("pk"),
        always=to_families.ALWAYS,
    ),
    Worded(
        name=project.NAME,
        title=colleague_invitation.TITLE,
        slug=colleague_invitation.SLUG,
        tables=project.INVITATION,
        parts=project.PARTS,
        blanks=project.BLANKS,
        sample=samples.invitation,
        rows=lambda desk, part: desk.projects.exclude(colleague=None).order_by("-pk"),
    ),
    Worded(
        name=trade.NAME,
        title=trade_memo.TITLE,
        slug=trade_memo.SLUG,
        tables=trade.MEMO,
        parts=trade.PARTS,
        blanks=trade.BLANKS,
        sample=samples.memo,
        rows=lambda desk, part: desk.trades.order_by("-pk"),
        always=trade.ALWAYS,
    ),
    Worded(
        name=introduction.NAME,
        title=introduction_letter.TITLE,
        slug=introduction_letter.SLUG,
        tables=introduction.INTRODUCTION,
        parts=introduction.PARTS,
        blanks=introduction.BLANKS,
        sample=samples.introduction,
        rows=lambda desk, part: desk.partners.order_by("-last_heard_on", "-pk"),
        verbs=introduction.SPOKEN_TO,
    ),
    Worded(
        name=year.NAME,
        title=yearly_summary.TITLE,
        slug=yearly_summary.SLUG,
        tables=year.YEAR,
        parts=year.PARTS,
        blanks=year.BLANKS,
        sample=samples.the_year,
        rows=lambda desk, part: desk.schools.order_by("pk"),
    ),
    Worded(
        name=talk.NAME,
        title=talk_card.TITLE,
        slug=talk_card.SLUG,
        tables=talk.TALK,
        parts=talk.PARTS,
        blanks=talk.BLANKS,
        sample=samples.a_talk,
        rows=lambda desk, part: desk.schools.order_by("pk"),
        always=talk.ALWAYS,
    ),
)
_BY_NAME = {one.name: one for one in WORDED}


def worded_by(slug: str, row: Any) -> list[Worded]:
    """The words that the document of that slug speaks with about the row."""
    kinds = ("", getattr(row, "reason", ""))
    return [one for one in WORDED if one.slug == slug and one.reason in kinds]


def worded(name: str) -> Worded:
    """The words of that sheet; KeyError where there are none."""
    return _BY_NAME[name]
