"""Partners, contacts, classes, gifts and visits as rows of a file that can be read in again."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext

from partners.directory.out import HEADER, PRIVATE, partner_rows, phone_words, ticked, words
from partners.gifts.models import Form, MoneyKind, Risk, Source
from partners.program.desk import Desk
from partners.school.class_words import days_words, short_grade
from partners.story.kinds import CLASSES, CONTACTS, GIFTS, VISITS
from partners.visits.models import Happened, How

AT_ONCE = 1000
Rows = Iterator[Sequence[Any]]


def heads(kind: Any, *without: str) -> list[str]:
    return [gettext(one.label) for one in kind.columns if one.name not in without]


def partners(desk: Desk) -> Rows:
    return partner_rows(desk.partners.order_by("name_key", "pk"), private=True)


def contacts(desk: Desk) -> Rows:
    rows = desk.contacts.select_related("partner").order_by("partner__name_key", "partner_id", "name_key", "pk")
    for one in rows.iterator(chunk_size=AT_ONCE):
        yield [
            *_place(one.partner), one.name, one.role, phone_words(one.phone), one.email, ticked(one.decides),
            one.since, one.left_on,
        ]  # fmt: skip


def classes(desk: Desk) -> Rows:
    rows = desk.classes.select_related("school").order_by("school__name", "school_id", "grade", "label")
    for one in rows.iterator(chunk_size=AT_ONCE):
        days = days_words(one.meets_on, one.school.cycle_length)
        yield [one.school.name, one.label, short_grade(one.grade), one.students, days, one.minutes]


def gifts(desk: Desk) -> Rows:
    """One row for each thing; the rows of one gift bear one number, which counts within the file."""
    found = desk.gifts.select_related("partner", "school", "project", "thanks").prefetch_related("lines")
    for number, one in enumerate(found.order_by("day", "pk").iterator(chunk_size=AT_ONCE), start=1):
        before, behind = _gift(one)
        for line in list(one.lines.all()) or [None]:
            yield [number, *before, *_line(line), *behind]


def _gift(gift: Any) -> tuple[list[Any], list[Any]]:
    """What stands before and behind the columns of a thing."""
    giver = _place(gift.partner) if gift.partner else [words(Source, gift.source), "", ""]
    thanks = getattr(gift, "thanks", None)
    before = [gift.day, *giver, gift.school.name if gift.school else "", words(Form, gift.form)]
    behind = [
        dollars(gift.amount_cents), words(MoneyKind, gift.money_kind), dollars(gift.given_value_cents),
        gift.gave_back, dollars(gift.gave_back_cents), ticked(gift.trade), gift.purpose,
        gift.project.title if gift.project else "", gift.received_by, gift.place, yes_no(gift.label_readable),
        yes_no(gift.fit_for_youngest), yes_no(gift.is_clean), gift.accepted_on, gift.return_on, gift.returned_on,
        gift.handed_in_on, gift.receipt_number, thanks.done_on if thanks else gift.families_thanked_on,
        thanks.how if thanks else "",
    ]  # fmt: skip
    return before, behind


def _line(line: Any) -> list[Any]:
    if line is None:
        return [""] * 5
    return [line.description, line.quantity, line.unit, line.condition, words(Risk, line.risk)]


def visits(desk: Desk) -> Rows:
    rows = desk.visits.select_related("partner", "contact").order_by("day", "pk")
    for one in rows.iterator(chunk_size=AT_ONCE):
        met = one.contact.name if one.contact else ""
        yield [
            one.day, *_place(one.partner), words(How, one.how), words(Happened, one.happened), met,
            ticked(one.sheet_left), one.note, one.by,
        ]  # fmt: skip


def _place(partner: Any) -> list[Any]:
    return [partner.name, phone_words(partner.phone), partner.street]


def dollars(cents: int | None) -> Decimal | None:
    return None if cents is None else Decimal(cents).scaleb(-2)


def yes_no(value: bool | None) -> str:
    return "" if value is None else gettext("yes") if value else gettext("no")


def lists() -> list[tuple[str, list[Any], Callable[[Desk], Rows]]]:
    """Each list: its slug, its heads, and its rows for a desk."""
    return [
        ("partners", [*HEADER, *PRIVATE], partners),
        ("contacts", heads(CONTACTS, "first_name", "last_name"), contacts),
        ("classes", heads(CLASSES), classes),
        ("gifts", heads(GIFTS), gifts),
        ("visits", heads(VISITS), visits),
    ]
