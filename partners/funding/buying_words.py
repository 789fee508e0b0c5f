"""A state's rule in words, what to take along, what the receipt must show."""

from __future__ import annotations

from django.utils.functional import Promise as LazyText
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.state_rules import STATES, Answer, Reason, Verdict

HEADINGS: dict[str, str | LazyText] = {
    Answer.EXEMPT: gettext_lazy("No sales tax is due"),
    Answer.TAXED: gettext_lazy("Sales tax is due"),
    Answer.ASK: gettext_lazy("Ask the business office"),
}

WHY: dict[str, str | LazyText] = {
    Reason.SCHOOL_PAYS: gettext_lazy(
        "In %(state)s a public school buys without sales tax when the school itself pays and the shop gets the "
        "certificate."
    ),
    Reason.AGENT_PAYS: gettext_lazy(
        "In %(state)s somebody whom the school authorized may pay with their own money, and with the certificate no "
        "sales tax is due."
    ),
    Reason.NO_CERTIFICATE: gettext_lazy(
        "In %(state)s it would be free of sales tax, but only with the certificate: none is chosen here, so the shop "
        "has to charge the tax."
    ),
    Reason.OWN_MONEY: gettext_lazy(
        "In %(state)s it is free of sales tax only when the school itself pays. Your own money or card is taxed, also "
        "when the school pays you back."
    ),
    Reason.OTHER_STATE: gettext_lazy("%(state)s does not exempt schools of another state."),
    Reason.OTHER_STATE_UNKNOWN: gettext_lazy(
        "The school is in another state than the shop, and most states exempt only their own schools. We have no rule "
        "of %(state)s on this."
    ),
    Reason.PETTY_CASH: gettext_lazy(
        "Whether petty cash counts as paid by the school in %(state)s stands in no rule that we have."
    ),
    Reason.NO_RULE: gettext_lazy(
        "We have no rule of %(state)s on this. Ask who has to pay, and which paper the shop must be given."
    ),
    Reason.NO_STATE: gettext_lazy("Say in which state you buy; the rules differ from state to state."),
}

EVIDENCE: dict[str, str | LazyText] = {
    "read": gettext_lazy("read in the original"),
    "partly": gettext_lazy("read partly in the original, partly as others report it"),
    "secondary": gettext_lazy("as others report it"),
    "unnoted": gettext_lazy("how it was read is not noted"),
}

CAUTION = gettext_lazy(
    "This is not tax advice. Rules change, and districts have their own; the business office decides."
)

BRING: tuple[str | LazyText, ...] = (
    gettext_lazy("the approval or the purchase order, before anything is bought"),
    gettext_lazy("the signed certificate, made out with the shop’s name"),
    gettext_lazy("your school ID"),
    gettext_lazy("the school’s card or order, if the school pays"),
)
SHOWS: tuple[str | LazyText, ...] = (
    gettext_lazy("the shop’s name and the day"),
    gettext_lazy("every item with its price"),
    gettext_lazy("the tax as a line of its own, 0.00 if exempt"),
    gettext_lazy("the total, and how it was paid"),
)


def sentence(verdict: Verdict) -> str:
    return str(WHY[verdict.reason]) % {"state": STATES.get(verdict.state, "")}


def source_words(verdict: Verdict) -> str:
    """Which publication says so and how it was read; empty where none does."""
    if not verdict.source:
        return ""
    year = str(verdict.year) if verdict.year else _("check for its newest edition")
    return f"{verdict.source} ({EVIDENCE[verdict.evidence]}; {year})"
