"""What a letter home lacks, or must not say."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import Arrangement, unprintable
from outreach.wording.family import other_slip, presses
from outreach.wording.family_facts import Facts
from outreach.wording.readability import grade
from partners.gifts.letter_phrases import value_in_text

AIM = 6.0
SMALLEST_WANTED = 11.5


def gaps(facts: Facts, clean: Facts, english: str, pages: Sequence[Arrangement]) -> tuple[Gap, ...]:
    """In the order in which it reads; `clean` are the facts as printed, `english` is what a family reads."""
    small = any(page.look.size < SMALLEST_WANTED for page in pages)
    return (
        *found(
            _approval_gap(clean),
            unless(clean.teacher, "no-teacher", _("Your name is missing."), "teacher"),
            unless(clean.things, "no-things", _("Nothing is asked for: mark needs as found in a household."), "things"),
            unless(clean.cannot_use, "no-cannot-use", _("No list of what you cannot use yet."), "cannot_use"),
            unless(clean.drop_off, "no-drop-off", _("Where can things be left?"), "drop_off"),
            unless(clean.first or clean.last, "no-days", _("From which day, until when?"), "first"),
            unless(clean.return_by, "no-return-by", _("By which day does the slip come back?"), "return_by"),
            *_past_gaps(clean),
            *_said_gaps(clean, english),
            *_spanish_gaps(clean),
            *_other_gaps(facts),
            when(any(len(page.pages) > 1 for page in pages), "second-page", _("It runs over one side."), "own"),
            when(small, "small-type", _("So much text needs small type."), "own"),
        ),
        *(gap for gap in missing_signs(facts) if not gap.field.startswith("other")),
    )


def _approval_gap(facts: Facts) -> Gap | None:
    words = _("No approval for letters home is recorded at this school: DRAFT stands across the page.")
    return None if facts.approved_by else Gap("not-approved", words, "approved_by", stops=True, going_only=True)


def _said_gaps(facts: Facts, english: str) -> Sequence[Gap | None]:
    """What the teacher's own words must not say, or say too hard; what the letter leaves out."""
    pressing = presses(facts.typed)
    presses_families = _("“{words}” presses families. Giving is free; say it another way.")
    left_out = _("Also on the wish list for households, not in this letter: {things}.")
    hard = (grade(english) or 0) > AIM
    return (
        when(value_in_text(facts.typed), "amount", _("An amount of money stands in the text."), "own", stops=True),
        when(pressing, "presses", format_lazy(presses_families, words=pressing), "own", stops=True),
        when(hard, "hard", _("It reads harder than grade 6. Shorter sentences and words help."), "own"),
        when(facts.left_out, "left-out", format_lazy(left_out, things=", ".join(facts.left_out)), "things"),
    )


def _past_gaps(facts: Facts) -> Sequence[Gap | None]:
    slip_is_late = facts.return_by is not None and facts.return_by < facts.day
    things_are_late = facts.last is not None and facts.last < facts.day
    return (
        when(slip_is_late, "return-by-past", _("The day by which the slip comes back is past."), "return_by"),
        when(things_are_late, "days-past", _("The last day for bringing things is past."), "last"),
    )


def _spanish_gaps(facts: Facts) -> Sequence[Gap | None]:
    lack = [thing.english for thing in (*facts.things, *facts.cannot_use) if thing.lacks_spanish]
    named = ", ".join(lack[:4]) + (" …" if len(lack) > 4 else "")
    field = "things_es" if any(thing.lacks_spanish for thing in facts.things) else "cannot_use_es"
    where = _("Where things are left stands only on the English side.")
    return (
        when(lack, "no-spanish", format_lazy(_("No Spanish yet for: {things}."), things=named), field),
        when(facts.drop_off and not facts.drop_off_es, "no-spanish-place", where, "drop_off_es"),
        when(
            facts.own and not facts.own_es,
            "no-spanish-text",
            _("Your own words stand only on the English side."),
            "own_es",
        ),
    )


def _other_gaps(facts: Facts) -> Sequence[Gap | None]:
    if not facts.other_text:
        return ()
    lost = " ".join(list(dict.fromkeys(unprintable(facts.other_text + facts.other_slip)))[:12])
    unread = _(
        "The print font has no signs for this language ({signs} …). Copy that page from the translator’s own file."
    )
    return (
        when(lost, "other-signs", format_lazy(unread, signs=lost), "other_text", stops=True),
        unless(facts.other_translator, "no-translator", _("Who translated it?"), "other_translator", stops=True),
        unless(
            facts.other_holds_promise,
            "other-promise",
            _("The translation must say that all is provided, nothing has to be sent and no one will know."),
            "other_holds_promise",
            stops=True,
        ),
        unless(other_slip(facts.other_slip), "other-slip", _("The third page has the English slip."), "other_slip"),
    )
