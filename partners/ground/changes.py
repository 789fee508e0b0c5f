"""How anything is changed: every verb opens `change`, and what it did is written down once and can be undone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, Protocol, TypeVar

from django.db import IntegrityError, models, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from partners.ground.frozen import frozen
from partners.ground.models import Event, Row, Touched

R = TypeVar("R", bound=models.Model)

BOOKKEEPING = ("created_at", "created_by_id", "updated_at", "updated_by_id")
COUNTED = {*BOOKKEEPING, "version"}
BATCH = 500
# A reference that leads nowhere: SQLite's SQLITE_CONSTRAINT_FOREIGNKEY (sqlite.org/rescode.html), and SQLSTATE.
FOREIGN_KEY = (787, "23503")


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


class MovedOn(Exception):
    """The row at this address was put together with another one, `stored`."""

    def __init__(self, stored: models.Model) -> None:
        super().__init__(str(stored))
        self.stored = stored


class Change:
    """An open verb. Rows go in through its methods, and nowhere else."""

    def __init__(self, actor: Actor, words: str, facts: dict[str, Any], undoes: Event | None = None) -> None:
        self.actor = actor
        self.event = Event(program=actor.program, by=actor.user, words=words, undoes=undoes)
        self.event.facts = {name: str(value) for name, value in facts.items()}
        self.changes: list[dict[str, Any]] = []

    def about(self, row: models.Model) -> None:
        self.event.about_model, self.event.about_pk = row._meta.model_name or "", row.pk

    def note(self, row: models.Model, before: dict[str, Any] | None, after: dict[str, Any] | None) -> None:
        if not self.event.about_model:
            self.about(row)
        self.changes.append({"model": row._meta.model_name, "pk": row.pk, "before": before, "after": after})

    def add(self, row: R) -> R:
        if isinstance(row, Row):
            row.program = self.actor.program
            row.created_by = row.updated_by = self.actor.user
        row.save(force_insert=True)
        self.note(row, None, frozen(row))
        return row

    def add_many(self, rows: Sequence[R]) -> Sequence[R]:
        """As `add`, all of one model, in few statements."""
        for row in rows:
            if isinstance(row, Row):
                row.program = self.actor.program
                row.created_by = row.updated_by = self.actor.user
        if rows:
            type(rows[0])._base_manager.bulk_create(rows, batch_size=BATCH)
        for row in rows:
            self.note(row, None, frozen(row))
        return rows

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

    @contextmanager
    def with_parts(self, row: Any) -> Iterator[None]:
        """What changes inside belongs to `row`: its version grows too, so that nobody saves on older parts."""
        noted, version = len(self.changes), row.version
        yield
        if len(self.changes) > noted and row.version == version:
            self._write([row], {})

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
            before = self.grow(row, names)
            for name, value in values.items():
                setattr(row, name, value)
            self.note(row, before, frozen(row, before))
        model = type(rows[0][0])
        model._base_manager.bulk_update(
            [row for row, _values in rows], [*names, "version", "updated_at", "updated_by"], batch_size=BATCH
        )
        return len(rows)

    def grow(self, row: Any, names: Iterable[str]) -> dict[str, Any]:
        columns = [row._meta.get_field(name).attname for name in names]
        before = frozen(row, [*columns, "version"])
        row.version += 1
        row.updated_at, row.updated_by = timezone.now(), self.actor.user
        return before

    def _write(self, rows: list[Any], values: dict[str, Any]) -> None:
        for row in rows:
            seen = row.version
            before = self.grow(row, values)
            own = {"version": row.version, "updated_at": row.updated_at, "updated_by": row.updated_by}
            if not type(row)._base_manager.filter(pk=row.pk, version=seen).update(**values, **own):
                raise ChangedMeanwhile(type(row)._base_manager.filter(pk=row.pk).first())
            for name, value in values.items():
                setattr(row, name, value)
            self.note(row, before, frozen(row, before))

    def scrub(self, row: Any, values: dict[str, Any]) -> None:
        """Set `values` for good: the event does not keep what stood there before, and undo brings nothing back."""
        self.grow(row, values)
        for name, value in values.items():
            setattr(row, name, value)
        row.save(update_fields=[*values, "version", "updated_at", "updated_by"])
        now = frozen(row, [*(row._meta.get_field(name).attname for name in values), "version"])
        self.note(row, now, now)

    def remove(self, row: models.Model) -> None:
        """Take the row out; it is kept whole in the event. Rows that stand on it must be removed before it."""
        stored = type(row)._base_manager.get(pk=row.pk)
        before = frozen(stored)
        stored.delete()
        stored.pk = before[stored._meta.pk.attname]
        self.note(stored, before, None)

    def write(self) -> None:
        if self.changes or self.event.is_scrubbed:
            self.event.changes = self.changes
            self.event.once = self.actor.once or None
            self.event.save()
            self._point_at_rows()

    def _point_at_rows(self) -> None:
        places = {(item["model"], item["pk"]) for item in self.changes}
        places.add((self.event.about_model, self.event.about_pk))
        rows = [
            Touched(program_id=self.event.program_id, event=self.event, model=model, row=pk)
            for model, pk in sorted(places, key=str)
            if model and pk is not None
        ]
        Touched.objects.bulk_create(rows, batch_size=BATCH)


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
    except IntegrityError as error:
        if actor.once:
            refuse_twice(actor)
        if points_nowhere(error):
            raise ChangedMeanwhile(None) from error
        raise
    finally:
        _open.reset(token)


def points_nowhere(error: IntegrityError) -> bool:
    """What was written points at a row that somebody took out meanwhile, or the other way round."""
    cause = error.__cause__
    return (
        getattr(cause, "sqlite_errorcode", None) == FOREIGN_KEY[0] or getattr(cause, "sqlstate", "") == FOREIGN_KEY[1]
    )


def refuse_twice(actor: Actor) -> None:
    saved = Event.objects.filter(program=actor.program, once=actor.once).first()
    if saved is not None:
        raise AlreadySaved(saved)
