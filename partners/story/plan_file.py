"""A file laid beside the book: what becomes of each of its rows. Reads through the desk, writes nothing."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from partners.agenda.pasted import known_schools
from partners.directory.same_partner import COLUMNS, described_as
from partners.directory.why_same import WORDS
from partners.ground.csv_out import unguarded
from partners.ground.grid import GridRow, cleaned
from partners.ground.names import fold
from partners.ground.plain import PlainError, gettext_noop
from partners.program.desk import Desk
from partners.school import class_paste
from partners.school.class_paste import named_school, read_class_rows
from partners.story.columns import Line, letters_of, read_lines, refused_heads, unclear
from partners.story.kinds import CLASSES, KINDS
from partners.story.plan_days import NO_PROJECT, Key, gift_key, plan_gifts, plan_visits, visit_key
from partners.story.plan_people import Places, compare_partner, plan_contacts, plan_partners
from partners.story.planned import Plan, Planned, compare
from partners.story.who_is_meant import Index

CONTACT_VALUES = ("role", "phone", "email", "decides", "since", "left_on")
AT_ONCE = 500
NOTHING = gettext_noop("There is no row below the names of the columns.")


def plan_file(*, desk: Desk, kind: str, rows: Sequence[GridRow], chosen: Mapping[int, str], head: bool) -> Plan:
    """`chosen`: which of our columns each column of the file is; `head`: whether the first row names the columns."""
    columns = KINDS[kind].columns
    first = rows[0] if head and rows else None
    wrong = unclear(chosen, columns, KINDS[kind].needed)
    refused = _of_children(kind, first) if first else None
    if refused or wrong:
        return Plan(kind, wrong=[refused] if refused else wrong)
    body = rows[1:] if head else rows
    if kind == CLASSES.slug:
        plan = _classes(desk, body, chosen, first)
    else:
        plan = PLANNED[kind](desk, read_lines(body, chosen, columns, first))
    if not plan.rows:
        plan.wrong.append(PlainError("nothing", class_paste.NOTHING if kind == CLASSES.slug else NOTHING))
    return plan


def _of_children(kind: str, head: GridRow) -> PlainError | None:
    if kind == CLASSES.slug:
        named = next((cell for cell in head.cells if fold(cell) in class_paste.OF_CHILDREN), "")
        return PlainError("children", class_paste.CHILDREN, head=named) if named else None
    return refused_heads(head)


class Book:
    """What of the book a plan needs: all partners by their keys, in one query."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        rows = list(desk.partners.order_by("pk").values_list(*COLUMNS))
        self.index = Index(described_as(rows))
        self.names = {row[0]: row[1] for row in rows}

    def places(self, kind: str) -> Places:
        return Places(Plan(kind), self.index, self.names, why_words)


def why_words(why: Sequence[Any]) -> str:
    return get_text_list([str(WORDS[one]) for one in why], _("and"))


def _partners(desk: Desk, lines: list[Line]) -> Plan:
    book = Book(desk)
    plan = plan_partners(lines, KINDS["partners"].columns, book.index, book.names, why_words)
    known = [row for row in plan.rows if row.pk is not None]
    names = [one.name for one in KINDS["partners"].columns if one.name != "people"]
    stored = _values(desk.partners, known, names)
    people: dict[int, set[str]] = defaultdict(set)
    for partner_id, key in desk.contacts.order_by().values_list("partner_id", "name_key"):
        people[partner_id].add(key)
    for row in known:
        compare_partner(row, stored[row.pk], people[row.spot], names)
    return plan


def _values(rows: Any, planned: Sequence[Planned], names: Sequence[str]) -> dict[Any, dict[str, Any]]:
    """The stored values of the rows that are known already, in few queries."""
    pks = [row.pk for row in planned]
    found: dict[Any, dict[str, Any]] = {}
    for start in range(0, len(pks), AT_ONCE):
        for one in rows.filter(pk__in=pks[start : start + AT_ONCE]).order_by().values("pk", *names):
            found[one["pk"]] = one
    return found


def people_of(desk: Desk) -> dict[tuple[int, str], int]:
    """Everybody in the book by partner and folded name; who is there still before who left."""
    rows = desk.contacts.order_by("-left_on", "-pk").values_list("partner_id", "name_key", "pk", "left_on")
    gone = {(partner, key): pk for partner, key, pk, left_on in rows if left_on}
    return gone | {(partner, key): pk for partner, key, pk, left_on in rows if not left_on}


def _contacts(desk: Desk, lines: list[Line]) -> Plan:
    book = Book(desk)
    columns = KINDS["contacts"].columns
    plan = plan_contacts(lines, columns, book.index, book.names, why_words, people_of(desk))
    known = [row for row in plan.rows if row.pk is not None]
    stored = _values(desk.contacts, known, CONTACT_VALUES)
    for row in known:
        compare(row, stored[row.pk], CONTACT_VALUES)
    return plan


def _gifts(desk: Desk, lines: list[Line]) -> Plan:
    schools = known_schools(desk)
    projects: dict[str, int] = {
        fold(title): pk for pk, title in desk.projects.order_by("-pk").values_list("pk", "title")
    }

    def project(typed: str) -> int:
        if fold(typed) not in projects:
            raise PlainError("no_project", NO_PROJECT, typed=typed)
        return projects[fold(typed)]

    def school(typed: str) -> int:
        return named_school(typed, schools).pk

    columns = KINDS["gifts"].columns
    return plan_gifts(lines, columns, Book(desk).places("gifts"), desk.day, school, project, _gifts_known(desk, lines))


def _gifts_known(desk: Desk, lines: list[Line]) -> Counter[Key]:
    days = [line.values["day"] for line in lines if "day" in line.values]
    if not days:
        return Counter()
    gifts = desk.gifts.filter(day__gte=min(days), day__lte=max(days)).order_by()
    whats: dict[int, list[str]] = defaultdict(list)
    for gift_id, what in desk.gift_lines.filter(gift__in=gifts).order_by().values_list("gift_id", "description"):
        whats[gift_id].append(what)
    rows = gifts.values_list("pk", "source", "partner_id", "day", "amount_cents")
    return Counter(gift_key(source, spot, day, whats[pk], cents) for pk, source, spot, day, cents in rows)


def _visits(desk: Desk, lines: list[Line]) -> Plan:
    days = [line.values["day"] for line in lines if "day" in line.values]
    known: Counter[Key] = Counter()
    if days:
        visits = desk.visits.filter(day__gte=min(days), day__lte=max(days)).order_by()
        known = Counter(visit_key(*row) for row in visits.values_list("partner_id", "day", "happened"))
    return plan_visits(lines, KINDS["visits"].columns, Book(desk).places("visits"), desk.day, known)


def _classes(desk: Desk, rows: Sequence[GridRow], chosen: Mapping[int, str], head: GridRow | None) -> Plan:
    places = {name: place for place, name in chosen.items()}
    stored = {(row.school_id, row.label): row for row in desk.classes}
    plan = Plan(CLASSES.slug)
    bare = cleaned(GridRow(row.number, tuple(map(unguarded, row.cells))) for row in rows)
    for one in read_class_rows(bare, places, known_schools(desk)):
        heads = {name: head.cell(place) if head else "" for name, place in places.items()}
        cells = {name: f"{letters_of(place)}{one.number}" for name, place in places.items()}
        row = Planned(Line(one.number, cells=cells, heads=heads), title=one.label, values=dict(one.values))
        for error, name in zip(one.wrong, one.wrong_in, strict=True):
            row.line.refuse(error, name)
        if one.school is not None:
            row.spot = one.school.pk
            before = stored.get((one.school.pk, one.label)) if not one.is_new else None
            if before is not None:
                row.pk = before.pk
                compare(row, {name: getattr(before, name) for name in one.values}, list(one.values))
        plan.rows.append(row)
    return plan


PLANNED: dict[str, Callable[[Desk, list[Line]], Plan]] = {
    "partners": _partners,
    "contacts": _contacts,
    "gifts": _gifts,
    "visits": _visits,
}
