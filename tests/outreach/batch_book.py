"""Three places that gave, and what is put together for them."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.test import Client
from django.urls import reverse

from outreach.batch_making import make_thanks, make_year_end
from outreach.batches import BatchSheets
from partners.directory.models import Partner
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.letters.models import Batch, Letter
from partners.program.desk import Desk
from partners.year.span import this_year
from tests.people import TUESDAY

PLACES = {"Marigold Framing": "19 Second Street", "Bluebird Bakery": "7 Second Street", "Quill Printing": ""}


def come(desk: Desk, partner: Partner, day: date = TUESDAY, what: str = "pots", **values: Any) -> Gift:
    lines = [Line(description=what, quantity=60)]
    return receive(desk=desk, source="partner", partner=partner, day=day, form="goods", lines=lines, **values)


def thanks_batch(desk: Desk) -> Batch:
    batch = make_thanks(desk, date(2026, 10, 1))
    assert batch is not None
    return batch


def year_end(desk: Desk) -> Batch | None:
    return make_year_end(desk, this_year(desk))


def titles(desk: Desk, batch: Batch) -> list[str]:
    return [letter.title for letter in BatchSheets(desk, batch).letters]


def body(answer: Any) -> bytes:
    return b"".join(answer.streaming_content)


def went(client: Client, batch: Batch, *here: Letter, **values: Any) -> Any:
    typed = {"state": "mailed", "day": "2026-10-05", "here": [one.pk for one in here], **values}
    return client.post(reverse("outreach:batch-went", args=[batch.pk]), typed)
