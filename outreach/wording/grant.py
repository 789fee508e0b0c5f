"""The words of a grant's sheets in each language, and a report worded from the record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.wording.counts import dollars, joined
from outreach.wording.dates import spelled
from outreach.wording.grant_facts import Agreed
from outreach.wording.own_words import Part, Voice


@dataclass(frozen=True)
class GrantWords:
    claim: str
    report: str
    application: str
    to: str
    of: str
    what_for: str
    asked: str
    awarded: str
    amount_on: str
    buy: str
    buy_from: str
    buy_until: str
    both_days: str
    claim_by: str
    receipts: tuple[str, str, str, str]
    number: str
    kinds: dict[str, str]
    total: str
    claim_lines: tuple[str, str, str, str]
    report_lines: tuple[str, str, str, str, str]
    budget: tuple[str, str, str, str]
    by_line: str
    together: str
    left: str
    nothing_left: str
    over: str
    no_receipts: str
    changes: str
    becomes: str
    moves: str
    agreed: str
    enclosed: str
    signers: tuple[str, str]
    date: str
    awarded_us: str
    had_asked: str
    bought: str
    all_spent: str
    some_left: str
    none_spent: str
    rest_back: str
    too_much: str
    reaches: str
    thanks: str
    thanks_unspent: str
    awarded_thanks: str
    will_reach: str
    before_buying: str
    reached: str
    page: str


GRANT = {
    "en": GrantWords(
        claim="Claim",
        report="Report on the grant",
        application="Application",
        to="To",
        of="From",
        what_for="For",
        asked="Asked for",
        awarded="Awarded",
        amount_on="{amount} on {day}",
        buy="Buying",
        buy_from="from {day}",
        buy_until="until {day}",
        both_days="{first} to {last}",
        claim_by="Claim by",
        receipts=("Date", "Shop and receipt", "What", "Amount"),
        number="no.\N{NO-BREAK SPACE}{number}",
        kinds={"shipping": "shipping", "tax": "sales tax", "tax_back": "sales tax given back", "discount": "discount"},
        total="Total claimed",
        claim_lines=("Line", "Approved", "Claimed", "Left"),
        report_lines=("Line", "Planned", "Changed", "Spent", "Left"),
        budget=("What", "Price with tax", "Shipping", "Together"),
        by_line="Line by line",
        together="Together",
        left="Of {awarded}, {left} is left.",
        nothing_left="All of {awarded} is used.",
        over="That is {over} more than the {awarded} of the award.",
        no_receipts="No receipt is charged to this grant yet.",
        changes="Changes you agreed to",
        becomes="{was} became {becomes}",
        moves="{amount} moved from {line} to {to}",
        agreed="{what}; {by}, {day}",
        enclosed="Receipts enclosed: {count}.",
        signers=("{teacher}", "For the school"),
        date="Date",
        awarded_us="On [day] you awarded our students [amount] for “[title]”.",
        had_asked="We had asked for [asked].",
        bought="With it we bought [what we bought].",
        all_spent="All of it is spent, as the lines below show.",
        some_left="[spent] of it is spent, and [left] is left, as the lines below show.",
        none_spent="Nothing of it is spent.",
        rest_back="What was left went back to you on [return day].",
        too_much="[spent] is spent, [over] more than the award.",
        reaches="[what it became] It reaches [children].",
        thanks="Thank you for making it possible.",
        thanks_unspent="Thank you for the trust you put in us.",
        awarded_thanks="Thank you for the grant of [amount] that you awarded our students on [day] for “[title]”.",
        will_reach="It will reach [children].",
        before_buying="We buy by your terms, keep every receipt, and tell you what it became.",
        reached="Children reached",
        page="page {page} of {pages}",
    ),
    "es": GrantWords(
        claim="Solicitud de reembolso",
        report="Informe sobre la subvención",
        application="Solicitud",
        to="Para",
        of="De",
        what_for="Para qué",
        asked="Solicitado",
        awarded="Otorgado",
        amount_on="{amount} el {day}",
        buy="Compras",
        buy_from="desde el {day}",
        buy_until="hasta el {day}",
        both_days="del {first} al {last}",
        claim_by="Presentar hasta el",
        receipts=("Fecha", "Tienda y recibo", "Qué", "Importe"),
        number="n.º {number}",
        kinds={
            "shipping": "envío",
            "tax": "impuesto sobre las ventas",
            "tax_back": "impuesto devuelto",
            "discount": "descuento",
        },
        total="Total solicitado",
        claim_lines=("Partida", "Aprobado", "Solicitado", "Queda"),
        report_lines=("Partida", "Previsto", "Cambiado", "Gastado", "Queda"),
        budget=("Qué", "Precio con impuesto", "Envío", "En total"),
        by_line="Partida por partida",
        together="En total",
        left="De {awarded}, quedan {left}.",
        nothing_left="Se usó todo: {awarded}.",
        over="Son {over} más que los {awarded} otorgados.",
        no_receipts="Todavía no hay recibos de esta subvención.",
        changes="Cambios que ustedes aprobaron",
        becomes="{was} pasó a ser {becomes}",
        moves="{amount} pasaron de {line} a {to}",
        agreed="{what}; {by}, {day}",
        enclosed="Recibos adjuntos: {count}.",
        signers=("{teacher}", "Por la escuela"),
        date="Fecha",
        awarded_us="El [day] ustedes otorgaron a nuestros estudiantes [amount] para “[title]”.",
        had_asked="Habíamos solicitado [asked].",
        bought="Con ello compramos [what we bought].",
        all_spent="Se gastó todo, como muestran las partidas de abajo.",
        some_left="Se gastaron [spent] y quedan [left], como muestran las partidas de abajo.",
        none_spent="No se gastó nada.",
        rest_back="Lo que quedaba se les devolvió el [return day].",
        too_much="Se gastaron [spent], [over] más de lo otorgado.",
        reaches="[what it became] Llega a [children].",
        thanks="Gracias por hacerlo posible.",
        thanks_unspent="Gracias por la confianza que nos dieron.",
        awarded_thanks="Gracias por los [amount] que otorgaron a nuestros estudiantes el [day] para “[title]”.",
        will_reach="Llegará a [children].",
        before_buying="Compramos según sus condiciones, guardamos cada recibo y les contaremos en qué se convirtió.",
        reached="Niños que se benefician",
        page="página {page} de {pages}",
    ),
}


def signed(cents: int) -> str:
    """Dollars with a minus sign where they are below zero.

    >>> signed(-550), signed(123450)
    ('−$5.50', '$1,234.50')
    """
    return f"−{dollars(-cents)}" if cents < 0 else dollars(cents)


def agreed_words(change: Agreed, language: str) -> str:
    """One agreed change with who agreed and when."""
    words = GRANT[language]
    parts = []
    if change.becomes:
        parts.append(words.becomes.format(was=change.was, becomes=change.becomes))
    if change.cents:
        parts.append(words.moves.format(amount=dollars(change.cents), line=change.line, to=change.to_line))
    return words.agreed.format(what=", ".join(parts), by=change.by, day=spelled(change.on, language))


def how_far(awarded: int, spent: int, language: str) -> str:
    """What is left of the award once `spent` is claimed, in one sentence."""
    words = GRANT[language]
    if spent > awarded:
        return words.over.format(over=dollars(spent - awarded), awarded=dollars(awarded))
    if spent == awarded:
        return words.nothing_left.format(awarded=dollars(awarded))
    return words.left.format(awarded=dollars(awarded), left=dollars(awarded - spent))


REPORT, AWARD = "grant-report", "thanks-for-a-grant"
REPORT_BLANKS = ("partner", "title", "amount", "day", "children", "what it became", "teacher", "school")
REPORT_PARTS = (
    Part("awarded_us", _("What was awarded")),
    Part("had_asked", _("Where you had asked for another amount"), ("asked",), may_go=True),
    Part("bought", _("What was bought"), ("what we bought",)),
    Part("all_spent", _("Where all of it is spent")),
    Part("some_left", _("Where some is left"), ("spent", "left")),
    Part("none_spent", _("Where nothing is spent")),
    Part("rest_back", _("Where what was left went back"), ("return day",)),
    Part("too_much", _("Where more is spent"), ("spent", "over")),
    Part("reaches", _("What it became, and for how many")),
    Part("thanks", _("Last paragraph")),
    Part("thanks_unspent", _("Last paragraph, where nothing is spent")),
)
AWARD_BLANKS = ("giver", "person", "title", "amount", "day", "children", "teacher", "school")
AWARD_PARTS = (
    Part("awarded_thanks", _("Thanks for the award")),
    Part("will_reach", _("For how many it will be")),
    Part("before_buying", _("Last paragraph"), may_go=True),
)


def report_paragraphs(
    say: Voice, *, awarded: int, asked: int | None, spent: int, bought: Sequence[str], rest_back_on: date | None = None
) -> tuple[str, ...]:
    """The report in words: the award, what was bought, what it became, for how many children, and what is left."""
    had_asked = say("had_asked", asked=dollars(asked)) if asked is not None and asked != awarded else ""
    things = say("bought", what_we_bought=joined(list(bought), say.language)) if bought else ""
    back = say("rest_back", return_day=spelled(rest_back_on, say.language)) if rest_back_on else ""
    if not spent:
        money = _joined(say("none_spent"), back)
    elif spent > awarded:
        money = say("too_much", spent=dollars(spent), over=dollars(spent - awarded))
    elif spent == awarded:
        money = say("all_spent")
    else:
        money = _joined(say("some_left", spent=dollars(spent), left=dollars(awarded - spent)), back)
    paragraphs = (
        _joined(say("awarded_us"), had_asked),
        _joined(things, money),
        say("reaches"),
        say("thanks" if spent else "thanks_unspent"),
    )
    return tuple(one for one in paragraphs if one)


def thanks_paragraphs(say: Voice) -> tuple[str, ...]:
    """The note of thanks for an award: nothing is bought yet, and nothing more is asked for."""
    return tuple(filter(None, (_joined(say("awarded_thanks"), say("will_reach")), say("before_buying"))))


def _joined(*parts: str) -> str:
    return " ".join(part for part in parts if part)
