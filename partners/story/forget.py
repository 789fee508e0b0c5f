"""Forgetting a person at their request: details go out of rows, history, letters and sheets; counts and hours stay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from django.contrib.sessions.backends.db import SessionStore
from django.contrib.sessions.models import Session
from django.db import connection, transaction
from django.utils.translation import gettext_noop

from partners.directory.actions import people_there
from partners.directory.models import Contact, Partner
from partners.ground.changes import Change, change
from partners.ground.models import SCRUBBED, Event
from partners.ground.traces import Traces
from partners.letters.actions import frozen_sheet
from partners.letters.models import Letter
from partners.program.desk import Desk
from partners.program.models import Program
from partners.story.known_as import EMPTY, EVENTS_AT_ONCE, Person, emptied, events, former_places
from partners.story.traces import Place, key_values

# Where the messages that nobody has seen yet wait.
MESSAGES = "_messages"
# Who has other names or people, by which a partner is found.
KEYED = (Contact, Partner)
MOST_WORDS = 200


@dataclass(frozen=True)
class Forgetting:
    """What is to go: the person's own rows, places in other rows, sheets; `left` are places that stay as they are."""

    rows: Sequence[Person]
    traces: Traces
    places: Sequence[Place] = ()
    letters: Sequence[Letter] = ()
    left: Sequence[Place] = ()
    others: Sequence[Person] = field(default=())


def forget(*, desk: Desk, forgetting: Forgetting) -> Event:
    """All of it, for good, in the whole program and not only in the person's schools. The event holds no name."""
    with change(desk, gettext_noop("Somebody was forgotten at their request")) as book:
        for first in forgetting.rows[:1]:
            book.about(first.partner if isinstance(first, Contact) else first)
        book.event.facts[SCRUBBED] = "yes"
        _scrub_places(book, forgetting)
        for row in forgetting.rows:
            book.scrub(row, emptied(row, desk.day))
        _know_people(book, forgetting)
        _scrub_letters(book, desk, forgetting)
        scrub_events(desk.program, forgetting)
        scrub_sessions(forgetting.traces)
        transaction.on_commit(write_through)
    return book.event


def _scrub_places(book: Change, forgetting: Forgetting) -> None:
    by_row: dict[tuple[str, int], tuple[Any, dict[str, Any]]] = {}
    for place in forgetting.places:
        kept = by_row.setdefault((place.row._meta.model_name, place.row.pk), (place.row, {}))
        kept[1].update(place.values())
    for row, values in by_row.values():
        for name, value in values.items():
            setattr(row, name, value)
        book.scrub(row, {**values, **key_values(row)})


def _know_people(book: Change, forgetting: Forgetting) -> None:
    named = [*forgetting.rows, *(place.row for place in forgetting.places)]
    partners = {row.partner_id if isinstance(row, Contact) else row.pk for row in named if isinstance(row, KEYED)}
    for partner in Partner.objects.filter(pk__in=partners):
        book.scrub(partner, {"people_key": people_there(partner)})


def _scrub_letters(book: Change, desk: Desk, forgetting: Forgetting) -> None:
    """The bytes go; document, day and state stay in the register. A sheet that no letter has any more goes whole."""
    if not forgetting.letters:
        return
    removed = frozen_sheet(book, desk, b"")
    sheets = []
    for letter in Letter.objects.filter(pk__in=[one.pk for one in forgetting.letters]).select_related("sheet"):
        sheets.append(letter.sheet)
        book.scrub(letter, {"sheet": removed, "words": {}})
    for sheet in {sheet.pk: sheet for sheet in sheets if sheet is not None}.values():
        if not sheet.letters.exists():
            book.remove(sheet)


def scrub_events(program: Program, forgetting: Forgetting) -> None:
    scrub = _Scrub(forgetting)
    changed: list[Event] = []
    for event in events(program):
        if scrub.event(event):
            event.facts[SCRUBBED] = "yes"
            changed.append(event)
        if len(changed) >= EVENTS_AT_ONCE:
            Event.objects.bulk_update(changed, ["words", "facts", "changes"])
            changed.clear()
    Event.objects.bulk_update(changed, ["words", "facts", "changes"])


def events_naming(program: Program, forgetting: Forgetting) -> int:
    """How many changes of the history would be scrubbed."""
    scrub = _Scrub(forgetting)
    return sum(scrub.event(event) for event in events(program))


class _Scrub:
    """Takes the person out of one event after the other."""

    def __init__(self, forgetting: Forgetting) -> None:
        self.traces = forgetting.traces
        self.own = {(row._meta.model_name, row.pk) for row in forgetting.rows} | former_places(forgetting.rows)
        self.others = {(row._meta.model_name, row.pk) for row in forgetting.others}
        self.letters = {letter.pk for letter in forgetting.letters}
        self.left = {(one.row._meta.model_name, one.row.pk, one.column) for one in forgetting.left}
        self.parts = {(one.row._meta.model_name, one.row.pk, one.column) for one in forgetting.places}
        self.parts |= {("partner", one.row.partner_id, "people") for one in forgetting.places if _is_contact(one)}
        self.named_in = {(model, pk) for model, pk, _column in self.parts}
        self.names_left = {one.value for one in forgetting.left if isinstance(one.value, str)}
        self.names_left |= {row.name for row in forgetting.others}

    def event(self, event: Event) -> bool:
        """Whether anything in it was about the person."""
        about = {(item["model"], item["pk"]) for item in event.changes}
        before = (event.words, event.facts, event.changes)
        event.changes = [self.item(item) for item in event.changes]
        if not about & self.others or about & self.own:
            event.words = self.traces.without(event.words)[:MOST_WORDS]
            parts = bool(about & self.named_in)
            event.facts = {name: self.fact(value, parts) for name, value in event.facts.items()}
        return bool(about & self.own) or before != (event.words, event.facts, event.changes)

    def fact(self, value: Any, parts: bool) -> Any:
        stays = isinstance(value, str) and value in self.names_left
        return value if stays else self.traces.without_in(value, parts=parts)

    def item(self, item: dict[str, Any]) -> dict[str, Any]:
        if (item["model"], item["pk"]) in self.others:
            return item
        return {**item, "before": self.side(item, item["before"]), "after": self.side(item, item["after"])}

    def side(self, item: dict[str, Any], side: dict[str, Any] | None) -> dict[str, Any] | None:
        if side is None:
            return None
        model, pk = item["model"], item["pk"]
        empty = EMPTY[model] if (model, pk) in self.own else {}
        if model == "letter" and pk in self.letters:
            empty = {"words": {}}
        return {name: empty.get(name, value) if name in empty else self.column(model, pk, name, value)
                for name, value in side.items()}  # fmt: skip

    def column(self, model: str, pk: int, name: str, value: Any) -> Any:
        place = (model, pk, name.removesuffix("_key"))
        if place in self.left:
            return value
        return self.traces.without_in(value, parts=place in self.parts)


def _is_contact(place: Place) -> bool:
    return isinstance(place.row, Contact) and place.column == "name"


def scrub_sessions(traces: Traces) -> None:
    """Messages that wait for somebody's next page may name the person; they are dropped."""
    for session in Session.objects.iterator():
        kept = session.get_decoded()
        if traces.certain_in(str(kept.get(MESSAGES, ""))):
            kept.pop(MESSAGES)
            session.session_data = SessionStore().encode(kept)
            session.save(update_fields=["session_data"])


def write_through() -> None:
    """On SQLite the log of recent writes still holds the old pages; it is written into the file and emptied."""
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
