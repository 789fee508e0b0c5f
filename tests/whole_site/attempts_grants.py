"""What can be typed into the forms of grants and ready answers."""

from __future__ import annotations

from partners.program.models import Program
from tests import people
from tests.whole_site.attempt import Attempt, set_to

# The number of the rows in `make_book` that the forms name.
OWN = 5_000_001


def only_begun(program: Program) -> None:
    """A grant that nothing stands on."""
    program.grants.update(state="planned")
    program.grant_answers.all().delete()
    program.purchase_lines.update(grant_line=None)
    program.grant_changes.all().delete()
    program.grant_lines.all().delete()
    for kind in ("purchases", "attachments", "letters", "thanks"):
        getattr(program, kind).update(grant=None)


def no_ready_answers(program: Program) -> None:
    program.ready_answers.all().delete()


MONEY_LEFT = set_to("grants", awarded_cents=50_000, spent_cents=0, answered_on=people.TUESDAY)
PAID_AHEAD = set_to(
    "grants", awarded_cents=50_000, spent_cents=0, answered_on=people.TUESDAY, claim_by=None, rest_back_on=None
)
ANSWERED = {"answered_on": "2027-01-12", "buy_from": "", "spend_by": "2027-05-28", "claim_by": "", "report_due": ""}
AGREED = {"agreed_by": "Ada Quill", "agreed_on": "2027-01-12"}
PAGE = "funding:grant-detail"
ATTEMPTS = {
    "funding:grant-answer": Attempt(
        {"said": "awarded", "awarded_cents": "400.00", **ANSWERED},
        before=set_to("grants", state="asked", asked_on=people.TUESDAY),
    ),
    "funding:grant-ask": Attempt(
        {"asked_on": "2027-01-11", "asked_cents": "500.00", "all_the_same": "on", "answer_by": "2027-03-01"},
        before=set_to("grants", state="planned", answered_on=None),
    ),
    "funding:grant-change": Attempt(
        {"line": OWN, "becomes": "glazes", "moved_cents": "", "to_line": "", **AGREED}, before=MONEY_LEFT
    ),
    "funding:grant-claimed": Attempt(
        {"claimed-day": "2027-01-12", "claimed-nothing_spent": "on"}, before=MONEY_LEFT, page=PAGE
    ),
    "funding:grant-edit": Attempt({"title": "Clay for grade 3", "asked_cents": "500.00", "asked_on": "2026-10-01"}),
    "funding:grant-leave": Attempt(before=MONEY_LEFT, page=PAGE),
    "funding:grant-new": Attempt(
        {"partner_pk": OWN, "partner": "", "title": "Clay", "line-0-what": "clay", "line-0-planned": "120.00"}
    ),
    "funding:grant-remove": Attempt(before=only_begun, page="funding:grant-edit"),
    "funding:grant-reported": Attempt(
        {"reported-day": "2027-01-12", "reported-nothing_spent": "on"}, before=MONEY_LEFT, page=PAGE
    ),
    "funding:grant-rest-back": Attempt({"rest_back-day": "2027-01-12"}, before=PAID_AHEAD, page=PAGE),
    "funding:grant-take-over": Attempt({"ready": [OWN]}, page="funding:grant-words"),
    "funding:grant-words": Attempt({"answer-0-words": "We work with clay."}),
    "funding:ready-answer-edit": Attempt({"words": "We reach 604 students."}),
    "funding:ready-answer-new": Attempt({"question": "Who are you?", "words": "The art room."}),
    "funding:ready-answer-remove": Attempt(page="funding:ready-answer-edit"),
    "funding:ready-answers-begin": Attempt(before=no_ready_answers, page="funding:ready-answers"),
}
