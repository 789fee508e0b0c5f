"""When there was word from or to a partner last: the latest of visits, follow-ups done, gifts and grants."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Any

from django.db.models import Max

from partners.ground.changes import Change
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Program

STEPS_OF_GRANTS = ("asked_on", "answered_on", "reported_on")
TELLING = ("visit", "followup", "gift", "grant")


def last_heard(program: Program, partner_ids: Collection[int] | None = None) -> dict[int, date]:
    """The day for every partner of whom there was word, by the partner's id; of all, or of these."""
    latest: dict[int, date] = {}
    told: list[tuple[Any, str]] = [
        (program.visits.all(), "day"),
        (program.follow_ups.filter(done_on__isnull=False), "done_on"),
        (program.gifts.filter(partner__isnull=False), "day"),
        *((program.grants.filter(**{f"{column}__isnull": False}), column) for column in STEPS_OF_GRANTS),
    ]
    for rows, column in told:
        if partner_ids is not None:
            rows = rows.filter(partner_id__in=partner_ids)
        newest = rows.order_by().values_list("partner_id").annotate(newest=Max(column))
        for partner_id, day in newest.values_list("partner_id", "newest"):
            latest[partner_id] = max(day, latest.get(partner_id, day))
    return latest


def hear_again(book: Change, desk: Desk, event: Event) -> None:
    """Count anew for the partners that the event's rows belong to: word that came since, on an earlier day, stays."""
    concerned = {
        values["partner_id"]
        for item in event.changes
        if item["model"] in TELLING
        for values in (item["before"], item["after"])
        if values and values.get("partner_id")
    }
    if not concerned:
        return
    latest = last_heard(desk.program, concerned)
    for partner in desk.program.partners.filter(pk__in=concerned):
        if partner.last_heard_on != latest.get(partner.pk):
            book.update(partner, last_heard_on=latest.get(partner.pk))
