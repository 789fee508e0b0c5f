"""The dates of grants as due lines: which are open, and what settles them."""

from __future__ import annotations

from datetime import timedelta

import pytest

from partners.agenda.lines import due_lines
from partners.funding.grant_due import SOURCES
from partners.funding.grant_models import Grant
from tests.people import TUESDAY, make_partner

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)
OPEN = {
    "funding.apply": {"state": "planned", "apply_by": TUESDAY},
    "funding.answer": {"state": "asked", "answer_by": TUESDAY},
    "funding.spend": {"state": "awarded", "awarded_cents": 50_000, "spent_cents": 49_999, "spend_by": TUESDAY},
    "funding.claim": {"state": "awarded", "awarded_cents": 50_000, "spent_cents": 1, "claim_by": TUESDAY},
    "funding.report": {"state": "awarded", "awarded_cents": 50_000, "spent_cents": 1, "report_due": TUESDAY},
    "funding.accept": {
        "state": "awarded",
        "awarded_cents": 50_000,
        "accept_due": TUESDAY,
        "accept_by_whom": "the board",
    },
}
ENDS = {
    "funding.apply": ("not_applied", {}),
    "funding.answer": ("move", {"due": TUESDAY + 30 * DAY}),
    "funding.spend": ("left", {}),
    "funding.claim": ("done", {}),
    "funding.report": ("done", {}),
    "funding.accept": ("done", {}),
}
WORDS = {
    "funding.apply": "the last day to apply",
    "funding.answer": "asked on September 1",
    "funding.spend": "$0.01 is left; the last day to spend it",
    "funding.claim": "$0.01 of $500.00 is spent; the last day to claim",
    "funding.report": "awarded on October 1",
    "funding.accept": "awarded on October 1",
}


def lines(desk):
    return [line for line in due_lines(desk, until=TUESDAY, limit=50) if line.source.startswith("funding.")]


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.slug)
def test_a_date_is_due_until_it_is_settled(desk, source):
    partner = make_partner(desk.program, kind="grantmaker")
    days = {"asked_on": "2026-09-01", "answered_on": "2026-10-01"}
    row = Grant.objects.create(program=desk.program, partner=partner, title="clay", **days, **OPEN[source.slug])
    (line,) = lines(desk)
    who = OPEN[source.slug].get("accept_by_whom", partner.name)
    assert (line.source, line.who, line.why) == (source.slug, who, WORDS[source.slug])
    code, extra = ENDS[source.slug]
    source.settle[code](desk=desk, row=source.rows(desk).get(), day=TUESDAY, **extra)
    assert lines(desk) == []
    assert Grant.objects.get(pk=row.pk).version == 2


def test_what_is_over_is_not_due(desk):
    partner = make_partner(desk.program, kind="grantmaker")
    own = {"program": desk.program, "partner": partner, "title": "clay"}
    everything = dict.fromkeys(("apply_by", "answer_by", "spend_by", "claim_by", "report_due"), TUESDAY)
    Grant.objects.create(**own, **everything, state="refused")
    done = {"claimed_on": TUESDAY, "reported_on": TUESDAY}
    Grant.objects.create(**own, **everything, **done, state="awarded", awarded_cents=500, spent_cents=500)
    assert lines(desk) == []
