"""Many sheets in one file."""

from __future__ import annotations

from collections.abc import Iterator
from tempfile import TemporaryFile
from typing import IO

from outreach.documents import leave_behind
from outreach.gathering.own_words import own_words
from outreach.preparing import prepare
from partners.program.desk import Desk
from partners.visits.models import Outing


def outing_file(desk: Desk, outing: Outing) -> IO[bytes] | None:
    """A leave-behind for each place, asking for what the outing plans there; None where it has no place."""
    stops = list(outing.stops.order_by("position", "pk"))
    if not stops:
        return None
    own = own_words(desk)
    file = TemporaryFile()  # noqa: SIM115 -- the answer that streams it closes it

    def facts() -> Iterator[leave_behind.Facts]:
        for stop in stops:
            prepared = prepare(desk, leave_behind.SLUG, stop.partner_id, own)
            planned = {"need": stop.need_id} if stop.need_id and "need" not in prepared.words else {}
            yield prepared.gather({**prepared.words, **planned})

    leave_behind.write_many(facts(), file)
    file.seek(0)
    return file
