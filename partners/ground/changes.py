"""How anything is changed: every verb opens `change`, and what it did is written down once and can be undone."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from datetime import datetime
from typing import Any, Protocol, TypeVar

from django.apps import apps
from django.db import IntegrityError, models, transaction
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.ground.models import Event, Row
from partners.ground.taken_back import all_taken_back

R = TypeVar("R", bound=models.Model)

BOOKKEEPING = ("created_at", "created_by_id", "updated_at", "updated_by_id")
COUNTED = {*BOOKKEEPING, "version"}


class Actor(Protocol):
    """Who changes what: a desk, in every view."""

    @property
    def program(self) -> Any: ...
    @property
    def user(self) -> Any: ...
    @property
    def once(self) -> str | None: ...


class AlreadySaved(Exception):
    """The form with this token was saved before; `event` is what it did."""

    def __init__(self, event: Event) -> None:
        super().__init__(str(event))
        self.event = event


class ChangedMeanwhile(Exception):
    """Somebody else saved this row after it was shown; `stored` is how it stands now."""

    def __init__(self, stored: models.Model | None) -> None:
        super().__init__(_("Somebody else changed this meanwhile. Nothing was saved over it."))
        self.stored = stored


class CannotUndo(Exception):
    """The rows were changed again, or something later stands on them; the message says so."""


def frozen(row: models.Model, names: Iterable[str] | None = None) -> dict[str, Any]:
    """The row's own columns by attribute name; pictures and files (binary columns) stay out."""
    fields = [f for f in row._meta.concrete_fields if not isinstance(f, models.BinaryField)]
    wanted = None if names is None else set(names)
    return {f.attname: _plain(f.value_from_object(row)) for f in fields if wanted is None or f.attname in wanted}


def holds_bytes(model: type[models.Model]) -> bool:
    return any(isinstance(field, models.BinaryField) for field in model._meta.concrete_fields)


def _plain(value: Any) -> Any:
    # The JSON encoder would cut an instant to milliseconds.
    return value.isoformat() if isinstance(value, datetime) else value


class Change:
    """An open verb. Rows go in through `add`, `update`, `update_many` and `remove`, and nowhere else."""

    def __init__(self, actor: Actor, words: str, facts: dict[str, Any], undoes: Event | None = None) -> None:
        self.actor = actor
        self.event = Event(program=actor.program, by=actor.user, words=words, undoes=undoes)
        self.event.facts = {name: str(value) for name, value in facts.items()}
        self.changes: list[dict[str, Any]] = []
        self._left: dict[tuple[str, int], int] = {}

    def about(self, row: models.Model) -> None:
        self.event.about_model, self.event.about_pk = row._meta.model_name or "", row.pk

    def _note(self, row: models.Model, before: dict[str, Any] | None, after: dict[str, Any] | None) -> None:
        if not self.event.about_model:
            self.about(row)
        self.changes.append({"model": row._meta.model_name, "pk": row.pk, "before": before, "after": after})

    def add(self, row: R) -> R:
        if isinstance(row, Row):
            row.program = self.actor.program
            row.created_by = row.updated_by = self.actor.user
        row.save(force_insert=True)
        self._note(row, None, frozen(row))
        return row

    def update(self, row: R, *, seen: int | None = None, **values: Any) -> R:
        """Set `values` on the row if it still has the version that was seen; ChangedMeanwhile otherwise."""
        wanted: Any = seen if seen is not None else row.version  # type: ignore[attr-defined]
        stored: Any = type(row)._base_manager.select_for_update().filter(pk=row.pk).first()
        if stored is None or stored.version != wanted:
            raise ChangedMeanwhile(stored)
        changed = {name: value for name, value in values.items() if getattr(stored, name) != value}
        if changed:
            self._write([stored], changed)
        for name, value in {**values, "version": stored.version, "updated_at": stored.updated_at}.items():
            setattr(row, name, value)
        return row

    def update_many(self, rows: Iterable[R], **values: Any) -> int:
        """The same values on many rows, each by its own version."""
        stored = list(rows)
        self._write(stored, values)
        return len(stored)

    def update_each(self, rows: list[tuple[R, dict[str, Any]]]) -> int:
        """Other values on every row; all rows of one model and all with the same names."""
        if not rows:
            return 0
        names = list(rows[0][1])
        for row, values in rows:
            before = self._grow(row, names)
            for name, value in values.items():
                setattr(row, name, value)
            self._note(row, before, frozen(row, before))
        model = type(rows[0][0])
        model._base_manager.bulk_update(
            [row for row, _values in rows], [*names, "version", "updated_at", "updated_by"], batch_size=500
        )
        return len(rows)

    def _grow(self, row: Any, names: Iterable[str]) -> dict[str, Any]:
        columns = [row._meta.get_field(name).attname for name in names]
        before = frozen(row, [*columns, "version"])
        row.version += 1
        row.updated_at, row.updated_by = timezone.now(), self.actor.user
        return before

    def _write(self, rows: list[Any], values: dict[str, Any]) -> None:
        for row in rows:
            seen = row.version
            before = self._grow(row, values)
            own = {"version": row.version, "updated_at": row.updated_at, "updated_by": row.updated_by}
            if not type(row)._base_manager.filter(pk=row.pk, version=seen).update(**values, **own):
                raise ChangedMeanwhile(type(row)._base_manager.filter(pk=row.pk).first())
            for name, value in values.items():
                setattr(row, name, value)
            self._note(row, before, frozen(row, before))

    def scrub(self, row: Any, values: dict[str, Any]) -> None:
        """Set `values` for good: the event does not keep what stood there before, and undo brings nothing back."""
        self._grow(row, values)
        for name, value in values.items():
            setattr(row, name, value)
        row.save(update_fields=[*values, "version", "updated_at", "updated_by"])
        now = frozen(row, [*(row._meta.get_field(name).attname for name in values), "version"])
        self._note(row, now, now)

    def remove(self, row: models.Model) -> None:
        """Take the row out; it is kept whole in the event. Rows that stand on it must be removed before it."""
        stored = type(row)._base_manager.get(pk=row.pk)
        before = frozen(stored)
        stored.delete()
        stored.pk = before[stored._meta.pk.attname]
        self._note(stored, before, None)

    def put_back(self, item: dict[str, Any]) -> None:
        """Undo one entry of an event's `changes`."""
        model = apps.get_model("partners", item["model"])
        stored: Any = model._base_manager.select_for_update().filter(pk=item["pk"]).first()
        place = (item["model"], item["pk"])
        if item["after"] is None:
            if stored is not None:
                raise CannotUndo(_("It is there again already."))
            if holds_bytes(model):
                raise CannotUndo(_("What was kept of it is gone for good. Add it again."))
            values = thawed(model, item["before"])
            row: Any = model(**{**values, "version": values["version"] + 1})
            row.save(force_insert=True)
            self._note(row, None, frozen(row))
            self._left[place] = row.version
            return
        # A verb may touch one row several times; going back, each step finds the version the last one left.
        if stored is None or not self._stands(stored, item, place):
            raise CannotUndo(_("It was changed again since then, so nothing was undone."))
        if item["before"] is None:
            self._take_out(stored)
            return
        values = thawed(model, item["before"])
        values.pop("version")
        names = {model._meta.get_field(name).name if name.endswith("_id") else name: name for name in values}
        before = self._grow(stored, names)
        for attname, value in values.items():
            setattr(stored, attname, value)
        stored.save(update_fields=[*names, "version", "updated_at", "updated_by"])
        self._note(stored, before, frozen(stored, before))
        self._left[place] = stored.version

    def _take_out(self, stored: models.Model) -> None:
        """Remove what was added. Bytes are kept once for all that show them, and stay while anything does."""
        try:
            self.remove(stored)
        except models.ProtectedError:
            if not holds_bytes(type(stored)):
                raise

    def _stands(self, stored: Any, item: dict[str, Any], place: tuple[str, int]) -> bool:
        """Whether the row is as the event left it. What was changed since then and taken back again changes nothing."""
        if stored.version == self._left.get(place, item["after"]["version"]):
            return True
        undone = self.event.undoes
        if place in self._left or undone is None:
            return False
        left = {name: value for name, value in thawed(type(stored), item["after"]).items() if name not in COUNTED}
        return all(getattr(stored, name) == value for name, value in left.items()) and all_taken_back(undone, *place)

    def write(self) -> None:
        if self.changes or self.event.is_scrubbed:
            self.event.changes = self.changes
            self.event.once = self.actor.once or None
            self.event.save()


def thawed(model: type[models.Model], values: dict[str, Any]) -> dict[str, Any]:
    """Column values as Python has them, from what an event keeps."""
    fields = {field.attname: field for field in model._meta.concrete_fields}
    return {name: fields[name].to_python(value) for name, value in values.items() if name in fields}


_open: ContextVar[Change | None] = ContextVar("open_change", default=None)


@contextmanager
def change(actor: Actor, words: str, /, *, undoes: Event | None = None, **facts: Any) -> Iterator[Change]:
    """Everything a verb does, all or nothing, as one event. A verb called inside a verb joins the outer one's event.

    `words` is a marked (gettext_noop) sentence with named placeholders that `facts` fill. Raises AlreadySaved where the
    actor's form token was used before.
    """
    outer = _open.get()
    if outer is not None:
        yield outer
        return
    book = Change(actor, words, facts, undoes)
    token = _open.set(book)
    try:
        with transaction.atomic():
            if actor.once:
                refuse_twice(actor)
            yield book
            book.write()
    except IntegrityError:
        if actor.once:
            refuse_twice(actor)
        raise
    finally:
        _open.reset(token)


def refuse_twice(actor: Actor) -> None:
    saved = Event.objects.filter(program=actor.program, once=actor.once).first()
    if saved is not None:
        raise AlreadySaved(saved)


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
            for item in reversed(event.changes):
                book.put_back(item)
            if then is not None:
                then(book)
    except (models.ProtectedError, IntegrityError) as error:
        raise CannotUndo(_("Something later stands on it, so nothing was undone.")) from error
    return book.event
