"""Every sheet in the order of the menu, and how the site comes from an address to it: the one list to add to."""

from __future__ import annotations

from types import ModuleType

from django.utils.translation import gettext_lazy as _

from outreach.documents import (
    board_gifts,
    buying_slip,
    call_sheet,
    class_plan,
    colleague_invitation,
    envelope,
    family_letter,
    family_thanks,
    gift_tag,
    grant_application,
    grant_claim,
    grant_report,
    gratitude_letter,
    handover,
    helper_note,
    introduction_letter,
    job_card,
    joint_plan,
    labels,
    leave_behind,
    letter_approval,
    letter_copies,
    night_before,
    places_asked,
    sign_in_sheet,
    talk_card,
    thanks_note,
    trade_memo,
    trade_receipt,
    wall_plan,
    year_end_note,
    yearly_summary,
)
from outreach.entry import Entry, itself
from outreach.family_forms import FamilyLetterWords, FamilyThanksWords
from outreach.forms import LeaveBehindWords, LetterWords, MemoWords
from outreach.gathering import (
    addresses,
    board,
    buying,
    classes,
    compared,
    family,
    grant,
    gratitude,
    helper,
    introduction,
    one_letter,
    project,
    session,
    show,
    tag,
    trade,
    year,
    year_end,
)
from outreach.gathering import handover as handing_over
from outreach.gathering import leave_behind as asking
from outreach.introduction_forms import IntroductionWords
from outreach.label_forms import envelope_words, label_words
from outreach.year_end_forms import YearEndWords
from outreach.year_forms import YearWords
from partners.program.models import Opened

TEACHERS_ONLY = ""
FOR_THANKS = ("partner", "school", "promise__need__project", "gift", "grant__project")
NO_VALUE = _("Receipts and taxes: describe goods, never value them.")

ENTRIES: tuple[Entry, ...] = (
    Entry(
        leave_behind,
        rows=lambda desk: desk.partners,
        gather=asking.gather,
        words=LeaveBehindWords,
        together=asking.together,
        to=itself,
        without_a_row=True,
    ),
    Entry(
        gratitude_letter,
        rows=lambda desk: desk.gifts.from_partners().select_related("partner", "school", "project"),
        gather=gratitude.gather_gift,
        words=LetterWords,
        compared=compared.with_others,
        thanks=lambda desk, gift: desk.thanks.filter(gift=gift).first(),
        shared=one_letter.of_one_letter,
        together=gratitude.together,
        caution=NO_VALUE,
    ),
    Entry(
        thanks_note,
        rows=lambda desk: desk.thanks.select_related(*FOR_THANKS),
        gather=gratitude.gather_owed,
        words=LetterWords,
        compared=compared.with_others,
        thanks=lambda desk, owed: owed,
        caution=NO_VALUE,
    ),
    Entry(
        year_end_note,
        rows=lambda desk: desk.partners,
        gather=year_end.gather,
        words=YearEndWords,
        to=itself,
        compared=year_end.compared,
        together=year_end.together,
        caution=NO_VALUE,
    ),
    Entry(
        gift_tag,
        rows=lambda desk: desk.gifts.select_related("partner", "school", "project"),
        gather=tag.gather,
    ),
    Entry(
        trade_memo,
        rows=trade.trades,
        gather=trade.gather_memo,
        words=MemoWords,
        opened=Opened.TRADES,
        note=trade.version_of,
        caution=_("A trade is no gift. A business that trades may have tax duties of its own; state no value."),
    ),
    Entry(class_plan, rows=trade.in_the_making, gather=classes.gather, opened=Opened.TRADES),
    Entry(wall_plan, rows=trade.in_the_making, gather=classes.gather, opened=Opened.TRADES),
    Entry(
        trade_receipt,
        rows=lambda desk: desk.deliveries.filter(promise__trade__isnull=False).select_related("promise__trade__school"),
        gather=trade.gather_receipt,
        opened=Opened.TRADES,
    ),
    Entry(
        family_letter,
        rows=lambda desk: desk.schools,
        gather=family.gather,
        words=FamilyLetterWords,
        begins=family.words_again,
        to=itself,
    ),
    Entry(letter_approval, rows=lambda desk: desk.schools, gather=family.gather_approval),
    Entry(letter_copies, rows=lambda desk: desk.schools, gather=family.gather_copies),
    Entry(
        family_thanks,
        rows=lambda desk: desk.schools,
        gather=family.gather_thanks,
        words=FamilyThanksWords,
        to=itself,
        handed=family.thanks_went_out,
    ),
    Entry(joint_plan, rows=project.projects, gather=project.gather_plan, opened=Opened.PROJECTS),
    Entry(
        colleague_invitation,
        rows=project.projects,
        gather=project.gather_invitation,
        words=LetterWords,
        to=lambda row: row.colleague,
        handed=project.went_out,
    ),
    Entry(job_card, rows=session.sessions, gather=session.gather_card, opened=Opened.HELPERS),
    Entry(sign_in_sheet, rows=session.sessions, gather=session.gather_sign_in, opened=Opened.HELPERS),
    Entry(call_sheet, rows=session.sessions, gather=session.gather_calls, opened=TEACHERS_ONLY),
    Entry(
        night_before,
        rows=lambda desk: desk.shows.select_related("school"),
        gather=show.gather,
        opened=TEACHERS_ONLY,
    ),
    Entry(
        helper_note,
        rows=lambda desk: desk.helpers.filter(forgotten_on=None).select_related("school"),
        gather=helper.gather,
        words=LetterWords,
        to=itself,
        caution=_("Hours are thanked for, never valued: no amount belongs in this note."),
        of_tax=False,
    ),
    Entry(grant_application, rows=grant.grants, gather=grant.gather_application, opened=Opened.MONEY),
    Entry(grant_claim, rows=grant.awarded, gather=grant.gather_claim, opened=Opened.MONEY),
    Entry(
        grant_report,
        rows=grant.awarded,
        gather=grant.gather_report,
        words=LetterWords,
        handed=grant.report_went_out,
        opened=Opened.MONEY,
        caution=_("Children are counted, never named. The grantmaker’s own form, where there is one, comes first."),
        of_tax=False,
    ),
    Entry(buying_slip, rows=buying.purchases, gather=buying.gather, opened=TEACHERS_ONLY),
    Entry(
        board_gifts,
        rows=lambda desk: desk.schools,
        gather=board.gather_gifts,
        opened=Opened.GIFTS,
        without_a_row=True,
        caution=NO_VALUE,
    ),
    Entry(
        places_asked,
        rows=lambda desk: desk.schools,
        gather=board.gather_asked,
        opened=Opened.PARTNERS,
        without_a_row=True,
    ),
    Entry(
        yearly_summary,
        rows=lambda desk: desk.schools,
        gather=year.gather,
        words=YearWords,
        opened=Opened.YEAR,
        to=itself,
        without_a_row=True,
    ),
    Entry(
        talk_card,
        rows=lambda desk: desk.schools,
        gather=year.gather_talk,
        opened=Opened.YEAR,
        without_a_row=True,
    ),
    Entry(
        introduction_letter,
        rows=lambda desk: desk.partners,
        gather=introduction.gather,
        words=IntroductionWords,
        together=introduction.together,
        to=itself,
        caution=_("A letter to introduce yourself asks for nothing, and what was promised stays as it was."),
        of_tax=False,
    ),
    Entry(
        handover,
        rows=lambda desk: desk.schools,
        gather=handing_over.gather,
        opened=TEACHERS_ONLY,
        without_a_row=True,
    ),
    Entry(
        labels,
        rows=lambda desk: desk.partners,
        gather=addresses.gather_labels,
        opened=TEACHERS_ONLY,
        without_a_row=True,
        asked=label_words,
    ),
    Entry(
        envelope,
        rows=lambda desk: desk.partners,
        gather=addresses.gather_envelope,
        opened=TEACHERS_ONLY,
        asked=envelope_words,
    ),
)
DOCUMENTS: tuple[ModuleType, ...] = tuple(one.module for one in ENTRIES)
_BY_SLUG = {one.slug: one for one in ENTRIES}


def entry(slug: str) -> Entry:
    """The document of that slug; KeyError when there is none."""
    return _BY_SLUG[slug]
