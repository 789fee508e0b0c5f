"""The gratitude letter: one page for a window envelope, thanks for a promise or a delivery, and the giver's records."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import compress
from typing import Literal

from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    FLOW_BELOW_FOLD,
    INCH,
    LETTER_LOOKS,
    Address,
    Block,
    Book,
    Bullets,
    Letterhead,
    Paragraph,
    Picture,
    Rule,
    Run,
    Sheet,
    SignOff,
    draw_sheet,
    fits_window,
    in_window,
    measured,
    on_paper,
    paper,
)
from outreach.wording import considering, gratitude
from outreach.wording.dates import spelled
from outreach.wording.grant import AWARD, GRANT, thanks_paragraphs
from outreach.wording.gratitude import Thanks
from outreach.wording.records import RECORDS
from partners.gifts.letter_check import ProblemCode, check_letter
from partners.school.names_hint import names_hinted, words_of

SLUG = "gratitude-letter"
TITLE = _("Gratitude letter")
ABOUT = "gift"

Note = Literal["thanks", "considering", "award"]
_ONLY_WHEN_GIVEN = frozenset({"no_statement", "not_described_back", "no_estimate"})


@dataclass(frozen=True)
class Facts:
    """Everything the letter says. What is empty vanishes; texts are printed as typed, never read as markup.

    `paragraphs` is the body as the teacher edited it; while it is empty the body is worded from `thanks`. `number` is
    the EIN of `thanks.receiver`, `receipts_by` the office that issues receipts when the school's does. `note` is what
    kind of body it has: for a gift or a promise, for considering it, for the award of the `grant` of that title.
    """

    paper: str
    letterhead: Letterhead
    day: date
    thanks: Thanks
    teacher: str
    role: str = ""
    address: Address = Address()  # noqa: RUF009 - frozen
    paragraphs: tuple[str, ...] = ()
    signature: Picture | None = None
    number: str = ""
    receipts_by: str = ""
    enclosures: tuple[str, ...] = ()
    window_left_in: float = 0.875
    draft: bool = False
    note: Note = "thanks"
    grant: str = ""

    @property
    def language(self) -> str:
        return self.thanks.language

    @property
    def body(self) -> tuple[str, ...]:
        """The paragraphs that will be printed."""
        if self.paragraphs:
            return self.paragraphs
        say = self.thanks.say
        if self.note == "considering":
            return considering.paragraphs(replace(say, sheet=considering.NAME, table=considering.NOTE[self.language]))
        if self.note == "award":
            values = {**say.values, "title": self.grant}
            return thanks_paragraphs(replace(say, sheet=AWARD, table=GRANT[self.language], values=values))
        return gratitude.paragraphs(self.thanks)


def _book(facts: Facts) -> Book:
    return Book(
        paper(facts.paper),
        title=_title(facts),
        author=", ".join(part for part in (facts.teacher, facts.letterhead.school) if part),
        subject=gratitude.described(facts.thanks),
        language=facts.language,
    )


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many, stream = _RUN.draw, _RUN.draw_many, _RUN.write_many, _RUN.stream


_PROBLEMS: dict[ProblemCode, str | Promise] = {
    "named_person": _("A gift to a named teacher or child is not a gift to the school: no such letter."),
    "value": _("The letter names a value. Describe the gift; the giver values it."),
    "value_of_help": _("The letter names a value for help or a space. Say thank you without one."),
    "nothing_on_trade": _("A trade gives something back: it must not say “nothing in return”."),
    "nothing_but_given": _("Something was given back: it must not say “nothing in return”."),
    "deductible": _("This must not be called deductible."),
    "ask": _("A thank-you never holds another ask."),
    "other_giver": _("The letter names another giver."),
    "no_statement": _("It must say whether anything was given in return."),
    "not_described_back": _("It must describe what was given in return."),
    "no_estimate": _("It must give our good-faith estimate of what was given in return."),
    "no_amount": _("It must name the amount of money."),
    "no_day": _("It should name the day of the gift."),
    "no_description": _("It should say what was given."),
    "no_purpose": _("It should say what the giver wants it used for."),
    "last_words": _("These are the words of the last letter again."),
}


def gaps(facts: Facts, other_givers: Sequence[str] = (), last_text: str = "") -> tuple[Gap, ...]:
    """What the letter lacks or must not say, in the order in which it reads.

    `other_givers` and `last_text` are handed to the check of the words, see `partners.gifts.letter_check`.
    """
    clean = on_paper(facts)
    thanks, address = clean.thanks, clean.address
    arrangement = measured(_sheet(clean), paper(facts.paper))
    fits = fits_window(address, paper(facts.paper), facts.window_left_in * INCH)
    given = thanks.amount_cents if thanks.form == "money" else gratitude.described(thanks)
    unknown_back = thanks.back and thanks.back_estimate_cents is None and not thanks.is_trade
    return (
        *found(
            unless(address.complete, "no-address", _("The address is not complete; hand the letter over."), "address"),
            unless(fits, "address-too-long", _("The address is too long for the envelope’s window."), "address"),
            unless(thanks.contact, "no-contact", _("No person to greet by name."), "thanks.contact"),
            unless(given, "nothing-given", _("What was given? Add the things or the amount."), "thanks.items"),
            unless(
                thanks.becomes, "no-becomes", _("What did it become? Write it on the project’s page."), "thanks.becomes"
            ),
            unless(thanks.students, "no-students", _("For how many children?"), "thanks.students"),
            unless(thanks.receiver, "no-receiver", _("The legal name that receives the gift."), "thanks.receiver"),
            unless(
                clean.letterhead.phone,
                "no-phone",
                _("No phone number stands on it to call you on."),
                "letterhead.phone",
            ),
            when(unknown_back, "no-estimate", _("No estimate of what was given in return."), "thanks.back"),
            unless(clean.teacher, "no-teacher", _("Your name is missing."), "teacher"),
            when(len(arrangement.pages) > 1, "second-page", _("It goes on to a second page."), "paragraphs"),
        ),
        *_problems(clean, other_givers, last_text),
        *_meant_for_somebody(clean),
        *missing_signs(facts),
    )


def _problems(facts: Facts, other_givers: Sequence[str], last_text: str) -> Iterator[Gap]:
    """What the rules say to the words themselves. A promise is no gift yet: only what no letter may hold counts."""
    thanks = facts.thanks
    if thanks.form == "money" and thanks.amount_cents is None:
        return
    text = "\n\n".join((*facts.body, *gratitude.listed(thanks), *gratitude.records(thanks)))
    for problem in check_letter(text, gratitude.gift_facts(thanks), other_givers, last_text):
        if thanks.moment == "promise" and problem.code in _ONLY_WHEN_GIVEN:
            continue
        words = _PROBLEMS[problem.code]
        if problem.snippet:
            words = format_lazy("{words} “{snippet}”", words=words, snippet=problem.snippet)
        yield Gap(problem.code.replace("_", "-"), words, "paragraphs", problem.stops)


def _meant_for_somebody(facts: Facts) -> Iterator[Gap]:
    thanks, text = facts.thanks, " ".join(facts.body)
    known = words_of(thanks.partner, thanks.contact, thanks.teacher, thanks.school, thanks.receiver)
    for name in (name for name in names_hinted(thanks.purpose, known) if name in text):
        words = _("Is “{name}” a child, or whom the gift is meant for? Ask the office first, and leave the name out.")
        yield Gap("purpose-names", format_lazy(words, name=name), "paragraphs")


def _title(facts: Facts) -> str:
    who = facts.thanks.partner or facts.thanks.contact
    words = RECORDS[facts.language]
    return words.title.format(partner=who) if who else words.title_alone


def _sheet(facts: Facts) -> Sheet:
    words, day = RECORDS[facts.language], spelled(facts.day, facts.language)
    who = facts.thanks.partner or facts.thanks.contact
    fixed = in_window(facts.address, paper(facts.paper), facts.window_left_in * INCH)
    closing: tuple[Block, ...] = (
        SignOff(words.closing, facts.teacher, facts.role, facts.signature),
        Paragraph(_enclosed(facts)),
        *_records(facts),
    )
    return Sheet(
        title=_title(facts),
        head=(facts.letterhead, Paragraph(day, side="right", before=0.9)),
        fixed=fixed,
        flow=(Paragraph(gratitude.salutation(facts.thanks)), *_body(facts), *closing),
        flow_from=FLOW_BELOW_FOLD if fixed else 0,
        together=len(closing),
        looks=LETTER_LOOKS,
        running=words.running.format(partner=who, day=day) if who else day,
        page_words=words.page,
        watermark=words.draft if facts.draft else "",
    )


def _body(facts: Facts) -> tuple[Block, ...]:
    """The paragraphs, with the list of things after the first when there are many."""
    paragraphs: list[Block] = [Paragraph(text, before=0.75) for text in facts.body]
    paragraphs.insert(1, Bullets(gratitude.listed(facts.thanks)))
    return tuple(paragraphs)


def _enclosed(facts: Facts) -> str:
    things = ", ".join(thing for thing in facts.enclosures if thing)
    return RECORDS[facts.language].enclosed.format(things=things) if things else ""


def _records(facts: Facts) -> tuple[Block, ...]:
    """What the giver keeps: small, under a hairline, with the number of the receiver and who issues receipts."""
    words, thanks = RECORDS[facts.language], facts.thanks
    lines = list(gratitude.records(thanks))
    if not lines:
        return ()
    if thanks.form in ("money", "goods") and not thanks.is_trade:
        number = words.number.format(receiver=thanks.receiver, number=facts.number)
        receipts = words.receipts.format(office=facts.receipts_by)
        has_number = bool(facts.number and thanks.receiver)
        lines.insert(-1, " ".join(compress((number, receipts), (has_number, bool(facts.receipts_by)))))
    kept = (Paragraph(line, step=-1, before=0.15) for line in lines)
    return (Rule(before=1.1), Paragraph(words.heading, face="bold", step=-1, heads=True), *kept)
