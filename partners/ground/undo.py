"""Taking a change back: every row as it was before, many rows of one kind in few statements."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from itertools import groupby
from typing import Any

from django.apps import apps
from django.db import IntegrityError, models
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.ground.changes import BATCH, COUNTED, Actor, Change, change
from partners.ground.frozen import frozen, holds_bytes, thawed
from partners.ground.models import Event
from partners.ground.taken_back import changed_since


class CannotUndo(Exception):
    """The rows were changed again, or something later stands on them; the message says so."""


class _Back:
    """Puts entries of an event's `changes` back, run by run: one model, one kind of change, each row once."""

    def __init__(self, book: Change, event: Event) -> None:
        self.book, self.event = book, event
        self.left: dict[tuple[str, int], int] = {}
        self.changed: set[tuple[str, int]] | None = None
        self.asked = False

    def put(self, items: Sequence[dict[str, Any]]) -> None:
        model = apps.get_model("partners", items[0]["model"])
        stored: dict[int, Any] = model._base_manager.select_for_update().in_bulk([item["pk"] for item in items])
        if items[0]["after"] is None:
            self._again(model, items, stored)
            return
        # A verb may touch one row several times; going back, each step finds the version the last one left.
        if not all(item["pk"] in stored and self._stands(stored[item["pk"]], item) for item in items):
            raise CannotUndo(_("It was changed again since then, so nothing was undone."))
        if items[0]["before"] is None:
            self._out(model, list(stored.values()))
        else:
            self._as_before(model, items, stored)

    def _again(self, model: Any, items: Sequence[dict[str, Any]], stored: dict[int, Any]) -> None:
        if stored:
            raise CannotUndo(_("It is there again already."))
        if holds_bytes(model):
            raise CannotUndo(_("What was kept of it is gone for good. Add it again."))
        values = [thawed(model, item["before"]) for item in items]
        rows = [model(**{**one, "version": one["version"] + 1}) for one in values]
        model._base_manager.bulk_create(rows, batch_size=BATCH)
        for row in rows:
            self.book.note(row, None, frozen(row))
            self.left[row._meta.model_name, row.pk] = row.version

    def _out(self, model: Any, rows: list[Any]) -> None:
        if holds_bytes(model):
            # Bytes are kept once for all that show them, and stay while anything does.
            for row in rows:
                with suppress(models.ProtectedError):
                    self.book.remove(row)
            return
        for start in range(0, len(rows), BATCH):
            part = rows[start : start + BATCH]
            model._base_manager.filter(pk__in=[row.pk for row in part]).delete()
            for row in part:
                self.book.note(row, frozen(row), None)

    def _as_before(self, model: Any, items: Sequence[dict[str, Any]], stored: dict[int, Any]) -> None:
        changed = []
        for item in items:
            row, values = stored[item["pk"]], thawed(model, item["before"])
            values.pop("version")
            names = [model._meta.get_field(name).name if name.endswith("_id") else name for name in values]
            before = self.book.grow(row, names)
            for attname, value in values.items():
                setattr(row, attname, value)
            self.book.note(row, before, frozen(row, before))
            self.left[item["model"], row.pk] = row.version
            changed.append(row)
        model._base_manager.bulk_update(changed, [*names, "version", "updated_at", "updated_by"], batch_size=BATCH)

    def _stands(self, stored: Any, item: dict[str, Any]) -> bool:
        """Whether the row is as the event left it. What was changed since then and taken back again changes nothing."""
        place = (item["model"], item["pk"])
        if stored.version == self.left.get(place, item["after"]["version"]):
            return True
        if place in self.left:
            return False
        left = {name: value for name, value in thawed(type(stored), item["after"]).items() if name not in COUNTED}
        return all(getattr(stored, name) == value for name, value in left.items()) and self._is_taken_back(place)

    def _is_taken_back(self, place: tuple[str, int]) -> bool:
        if not self.asked:
            self.changed, self.asked = changed_since(self.event), True
        return self.changed is not None and place not in self.changed


def runs(changes: Sequence[dict[str, Any]]) -> Iterator[list[dict[str, Any]]]:
    """The entries from the last to the first, those that can go back together in one list."""

    def kind(item: dict[str, Any]) -> tuple[Any, ...]:
        before, after = item["before"], item["after"]
        return item["model"], before is None, after is None, tuple(before or ()) if after and before else ()

    for _kind, items in groupby(reversed(changes), kind):
        run: dict[int, dict[str, Any]] = {}
        for item in items:
            if item["pk"] in run:
                yield list(run.values())
                run = {}
            run[item["pk"]] = item
        yield list(run.values())


def _undoing(event: Event) -> tuple[str, Event]:
    """The words for undoing it, and what was done in the first place: an undo of an undo puts that back."""
    words = (gettext_noop("Taken back: %(what)s"), gettext_noop("Put back: %(what)s"))
    times = 0
    while event.undoes is not None:
        event, times = event.undoes, times + 1
    return words[times % 2], event


def undo(actor: Actor, event: Event, then: Callable[[Change], None] | None = None) -> Event:
    """Put everything back as it was before the event, and do `then` in the same change.

    Raises CannotUndo with the reason, and then changes nothing.
    """
    if event.is_scrubbed:
        raise CannotUndo(_("Somebody in it was forgotten at their request, so it can no longer be taken back."))
    if Event.objects.filter(undoes=event).exists():
        raise CannotUndo(_("This was undone already."))
    try:
        words, first = _undoing(event)
        with change(actor, words, undoes=event, what=first) as book:
            book.event.about_model, book.event.about_pk = event.about_model, event.about_pk
            back = _Back(book, event)
            for run in runs(event.changes):
                back.put(run)
            if then is not None:
                then(book)
    except (models.ProtectedError, IntegrityError) as error:
        raise CannotUndo(_("Something later stands on it, so nothing was undone.")) from error
    return book.event
