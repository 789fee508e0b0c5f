"""Who may pay so that a school's purchase is free of sales tax: what each state's own publication says, as data.

fixtures/reference/sales_tax.json holds one row for each state that was read. What no row answers is answered "ask the
business office": a rule of another state never stands in. Pure, without Django; the words are in `buying_words`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from partners.funding.sales_tax import parse_rate
from partners.ground.reference import reference

# The Postal Service's two letters; the table of rules knows only some of them.
STATES = {
    "AL": "Alabama", "AK": "Alaska", "AZ": "Arizona", "AR": "Arkansas", "CA": "California", "CO": "Colorado",
    "CT": "Connecticut", "DE": "Delaware", "DC": "District of Columbia", "FL": "Florida", "GA": "Georgia",
    "HI": "Hawaii", "ID": "Idaho", "IL": "Illinois", "IN": "Indiana", "IA": "Iowa", "KS": "Kansas", "KY": "Kentucky",
    "LA": "Louisiana", "ME": "Maine", "MD": "Maryland", "MA": "Massachusetts", "MI": "Michigan", "MN": "Minnesota",
    "MS": "Mississippi", "MO": "Missouri", "MT": "Montana", "NE": "Nebraska", "NV": "Nevada", "NH": "New Hampshire",
    "NJ": "New Jersey", "NM": "New Mexico", "NY": "New York", "NC": "North Carolina", "ND": "North Dakota",
    "OH": "Ohio", "OK": "Oklahoma", "OR": "Oregon", "PA": "Pennsylvania", "PR": "Puerto Rico", "RI": "Rhode Island",
    "SC": "South Carolina", "SD": "South Dakota", "TN": "Tennessee", "TX": "Texas", "UT": "Utah", "VT": "Vermont",
    "VA": "Virginia", "WA": "Washington", "WV": "West Virginia", "WI": "Wisconsin", "WY": "Wyoming",
}  # fmt: skip


class Answer(StrEnum):
    EXEMPT = "exempt"
    TAXED = "taxed"
    ASK = "ask"


class Reason(StrEnum):
    """Why the answer is what it is; each has its sentence in `buying_words`."""

    SCHOOL_PAYS = "school_pays"
    AGENT_PAYS = "agent_pays"
    NO_CERTIFICATE = "no_certificate"
    OWN_MONEY = "own_money"
    OTHER_STATE = "other_state"
    OTHER_STATE_UNKNOWN = "other_state_unknown"
    PETTY_CASH = "petty_cash"
    NO_RULE = "no_rule"
    NO_STATE = "no_state"


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether the purchase is exempt, why, and which publication says so; `evidence` is how it was read."""

    answer: Answer
    reason: Reason
    state: str = ""
    source: str = ""
    evidence: str = ""
    year: int | None = None


def who_may_pay(
    *, state: str, payer: str, school_state: str = "", authorised_agent: bool = False, certificate: bool = True
) -> Verdict:
    """The rule of the state in which it is bought, for one way of paying: "order", "school_card", "petty_cash", "own".

    States are two letters. `certificate` says whether the shop is shown one; without it nothing is exempt. A school
    whose own state is not known counts as one of the state it buys in.
    """
    if state not in STATES:
        return Verdict(Answer.ASK, Reason.NO_STATE)
    row: dict[str, Any] = reference("sales_tax")["states"].get(state, {})
    answer, reason = _ruled(row, state, payer, school_state, authorised_agent)
    if answer is Answer.EXEMPT and not certificate:
        answer, reason = Answer.TAXED, Reason.NO_CERTIFICATE
    said = row if answer is not Answer.ASK else {}
    return Verdict(answer, reason, state, said.get("source", ""), said.get("evidence", ""), said.get("year"))


def _ruled(row: dict[str, Any], state: str, payer: str, school_state: str, agent: bool) -> tuple[Answer, Reason]:
    if school_state and school_state != state:
        if "school_of_another_state" in row:
            return Answer(row["school_of_another_state"]), Reason.OTHER_STATE
        return Answer.ASK, Reason.OTHER_STATE_UNKNOWN
    if "paid_by_school" not in row:
        return Answer.ASK, Reason.NO_RULE
    if payer == "petty_cash":
        return Answer.ASK, Reason.PETTY_CASH
    if payer != "own":
        return Answer(row["paid_by_school"]), Reason.SCHOOL_PAYS
    if agent and "authorized_agent" in row:
        return Answer(row["authorized_agent"]), Reason.AGENT_PAYS
    return Answer(row["own_money"]), Reason.OWN_MONEY


@dataclass(frozen=True, slots=True)
class BaseRate:
    """The state's own rate, in ten-thousandths of a percent; local taxes come on top."""

    parts: int
    source: str
    evidence: str


def base_rate(state: str) -> BaseRate | None:
    """None where the table lacks the state."""
    row = reference("sales_tax")["states"].get(state)
    return BaseRate(parse_rate(row["base_rate"]), row["rate_source"], row["rate_evidence"]) if row else None


def state_code(text: str) -> str:
    """The two letters of a state that is typed as letters or as its name; empty for anything else."""
    typed = " ".join(text.split()).casefold().rstrip(".")
    if typed.upper() in STATES:
        return typed.upper()
    return next((code for code, name in STATES.items() if name.casefold() == typed), "")
