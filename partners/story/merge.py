"""Putting two rows of one partner together: what stands on the one moves to the other, in one change."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from partners.agenda.last_heard import last_heard
from partners.directory.actions import KEYED, people_there
from partners.directory.keys import keys
from partners.directory.merging import PARTS, all_names, fitting_details, put_together
from partners.directory.models import Contact, FormerPartner, NotSame, Partner
from partners.ground.changes import Change, ChangedMeanwhile, change
from partners.ground.models import Row
from partners.ground.put_together import PARTNERS
from partners.program.desk import Desk
from partners.story.references import references
from partners.visits.models import OutingStop

R = TypeVar("R", bound=Row)
DETAILS = ("role", "phone", "email", "since")
COLUMNS = [name for names in PARTS.values() for name in names]


def merge(
    *,
    desk: Desk,
    kept: Partner,
    other: Partner,
    choices: Mapping[str, str] | None = None,
    seen: int | None = None,
    other_seen: int | None = None,
) -> Partner:
    """`other` becomes `kept`: by `choices` (see `put_together`) in what it says of itself, whole in all the rest.

    Everything in the program that refers to `other` moves, also rows of schools that the person does not see. Raises
    ChangedMeanwhile where either is no longer as it was seen.
    """
    with change(desk, PARTNERS, other=other.name, partner=kept.name) as book:
        seen_rows = {kept.pk: seen or kept.version, other.pk: other_seen or other.version}
        kept, other = locked(Partner, seen_rows, kept.pk)
        book.about(kept)
        values = put_together(of(kept), of(other), choices or {})
        _one_place_each(book, kept, other)
        _one_row_each(book, kept, other)
        _two_no_more(book, kept, other)
        move_all(book, kept, other)
        book.add(FormerPartner(partner=kept, was=other.pk))
        book.remove(other)
        name = values.get("name", kept.name)
        values["also_called"] = all_names(name, [kept.name, *kept.other_names, other.name, *other.other_names])
        kept.also_called = values["also_called"]
        now = {one: values.get(one, getattr(kept, one)) for one in KEYED}
        heard = last_heard(desk.program, [kept.pk]).get(kept.pk)
        values |= keys(**now)
        return book.update(kept, **values, people_key=people_there(kept), last_heard_on=heard)


def of(partner: Partner) -> dict[str, Any]:
    """What a partner says of itself."""
    return {name: getattr(partner, name) for name in COLUMNS}


def locked(model: type[R], seen: Mapping[int, int], kept: int) -> tuple[R, R]:
    """The row with the number `kept` and the other one, if both still have the versions that were `seen`."""
    # Always both and in the order of their numbers: two people who merge the same two never wait for each other.
    found = model._base_manager.select_for_update().filter(pk__in=seen).order_by("pk")
    rows: dict[int, R] = {row.pk: row for row in found}
    for one, version in seen.items():
        if one not in rows or rows[one].version != version:
            raise ChangedMeanwhile(rows.get(one))
    (other,) = (row for pk, row in rows.items() if pk != kept)
    return rows[kept], other


def move_all(book: Change, kept: Row, other: Row) -> None:
    """Every reference to `other` is one to `kept`."""
    for model, column in references(type(kept)):
        rows = model._base_manager.select_for_update().filter(**{column: other.pk}).order_by("pk")
        book.update_each([(row, {column: kept}) for row in rows])


def _one_place_each(book: Change, kept: Partner, other: Partner) -> None:
    """An outing that leads to both leads there once; who went, and for what, stays known."""
    places = {stop.outing_id: stop for stop in OutingStop.objects.select_for_update().filter(partner=kept)}
    for stop in OutingStop.objects.select_for_update().filter(partner=other, outing__in=places).order_by("pk"):
        place = places[stop.outing_id]
        book.remove(stop)
        lacking = {name: getattr(stop, name) for name in ("visit", "need") if getattr(place, f"{name}_id") is None}
        if lacking:
            book.update(place, **lacking)


def people_in_both(kept: Partner, other: Partner) -> list[tuple[Contact, Contact, dict[str, Any]]]:
    """Who stands at both, with what the row that is kept lacks. Whose two rows do not say the same stays twice."""
    known = {(one.name_key, one.left_on): one for one in kept.contacts.all()}
    found = []
    for there in other.contacts.all():
        here = known.pop((there.name_key, there.left_on), None)
        if here is not None:
            one, two = ({name: getattr(row, name) for name in DETAILS} for row in (here, there))
            lacking = fitting_details(one, two, DETAILS)
            if lacking is not None:
                found.append((here, there, lacking | ({"decides": True} if there.decides else {})))
    return found


def _two_no_more(book: Change, kept: Partner, other: Partner) -> None:
    """Somebody said before that these are two."""
    both = [kept.pk, other.pk]
    for row in NotSame.objects.select_for_update().filter(partner__in=both, other__in=both).order_by("pk"):
        book.remove(row)


def _one_row_each(book: Change, kept: Partner, other: Partner) -> None:
    for here, there, lacking in people_in_both(kept, other):
        move_all(book, here, there)
        book.remove(there)
        book.update(here, **lacking)
