"""The slip for the shop: who buys, whether tax is charged, what to take along, what the receipt must show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Bullets,
    Framed,
    Heading,
    Letterhead,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    Stack,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.buying import SLIP, SlipWords
from outreach.wording.dates import spelled
from partners.ground.money import format_cents

SLUG = "buying-slip"
TITLE = _("Buying slip")
ABOUT = "purchase"

EXEMPT, TAXED, ASK = "exempt", "taxed", "ask"
OWN = "own"
PAID_BY_SCHOOL = ("order", "school_card")


@dataclass(frozen=True)
class Facts:
    """Everything the slip says; what is empty vanishes. `answer` is "exempt", "taxed" or "ask" the business office.

    `payer` is "order", "school_card", "petty_cash" or "own"; amounts are cents.
    """

    language: str
    paper: str
    letterhead: Letterhead
    shop: str
    what: str
    payer: str
    answer: str = ASK
    person: str = ""
    buyer: str = ""
    school: str = ""
    ein: str = ""
    certificate: str = ""
    certificate_state: str = ""
    certificate_until: date | None = None
    certificate_ended: bool = False
    about_cents: int | None = None
    agent: bool = False
    approved_by: str = ""
    approved_on: date | None = None
    order_number: str = ""
    paid_from: str = ""
    claim_days: int | None = None


def _book(facts: Facts) -> Book:
    title = f"{SLIP[facts.language].title}: {facts.shop}"
    return Book(paper(facts.paper), title=title, author=facts.letterhead.school, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    title = f"{SLIP[facts.language].title}: {facts.shop}"
    draw_sheet(_sheet(on_paper(facts), title), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the slip lacks."""
    return (
        *found(
            unless(facts.buyer, "no-legal-name", _("The district’s legal name is missing."), "buyer"),
            unless(facts.ein, "no-ein", _("The EIN is missing."), "ein"),
            unless(facts.certificate, "no-certificate", _("No certificate: the shop will charge tax."), "certificate"),
            when(facts.certificate_ended, "ended", _("The certificate is not valid today."), "certificate_until"),
            unless(
                facts.approved_by or facts.order_number,
                "no-approval",
                _("Who approved it, or which order number?"),
                "approved_by",
            ),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts, title: str) -> Sheet:
    words = SLIP[facts.language]
    return Sheet(
        title=title,
        head=(facts.letterhead,),
        flow=(Heading(words.title, before=0), *_blocks(facts, words)),
        looks=SHEET_LOOKS,
        running=title,
        page_words=words.page,
    )


def _blocks(facts: Facts, words: SlipWords) -> tuple[Block, ...]:
    buyer = (
        (words.buyer, facts.buyer),
        (words.ein, facts.ein),
        (words.certificate, _certificate(facts, words)),
    )
    return (
        Framed((*_tax(facts, words), Pairs(buyer, before=0.7)), before=0.8),
        Pairs(_facts(facts, words), before=1.0),
        Stack((Paragraph((bold(words.bring),)), Bullets(_bring(facts, words), before=0.3)), before=1.2),
        Stack((Paragraph((bold(words.shows),)), Bullets(_shows(facts, words), before=0.3)), before=1.0),
        Paragraph(words.caution, before=1.2),
    )


def _tax(facts: Facts, words: SlipWords) -> tuple[Block, ...]:
    """What the shop reads first. Where no rule is known, a valid certificate speaks for a school that pays itself."""
    if facts.answer == TAXED:
        return (Paragraph((bold(words.tax),), step=2),)
    valid = bool(facts.certificate) and not facts.certificate_ended
    if valid and (facts.answer == EXEMPT or facts.payer in PAID_BY_SCHOOL):
        first = Paragraph(words.teacher_asks if facts.answer == ASK else "", before=0.4)
        return Paragraph((bold(words.no_tax),), step=2), first
    return (Paragraph((bold(words.ask),), step=2),)


def _certificate(facts: Facts, words: SlipWords) -> str:
    """Shown only where it may be used: a shop that is handed a number charges no tax."""
    if not facts.certificate or facts.answer == TAXED:
        return ""
    if facts.certificate_until is None:
        return f"{facts.certificate}, {facts.certificate_state}"
    day = spelled(facts.certificate_until, facts.language)
    return words.until.format(number=facts.certificate, state=facts.certificate_state, day=day)


def _facts(facts: Facts, words: SlipWords) -> tuple[tuple[str, str], ...]:
    approved = facts.approved_by
    if approved and facts.approved_on:
        approved = f"{approved}, {spelled(facts.approved_on, facts.language)}"
    pays = words.agent if facts.agent and facts.payer == OWN else words.payers[facts.payer]
    hand_in = words.hand_in_by.format(days=facts.claim_days) if facts.claim_days else ""
    about = format_cents(facts.about_cents, facts.language) if facts.about_cents is not None else ""
    return (
        (words.shop, facts.shop),
        (words.what, facts.what),
        (words.about, about),
        (words.for_school, facts.school),
        (words.person, facts.person),
        (words.pays, pays),
        (words.approved, approved),
        (words.order, facts.order_number),
        (words.paid_from, facts.paid_from),
        (words.hand_in, hand_in),
    )


def _bring(facts: Facts, words: SlipWords) -> tuple[str, ...]:
    certificate = words.bring_certificate if facts.certificate and facts.answer != TAXED else ""
    order = words.bring_order if facts.payer in PAID_BY_SCHOOL else ""
    return (*words.bring_items, certificate, order)


def _shows(facts: Facts, words: SlipWords) -> tuple[str, ...]:
    if facts.answer == EXEMPT:
        first, second, _tax, total = words.show_items
        return first, second, words.show_no_tax, total
    return words.show_items
