"""What can be done to partners and the people there."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Q
from django.utils.translation import gettext_noop

from partners.directory.keys import keys, people_key
from partners.directory.kind_named import kind_named
from partners.directory.models import Contact, NotSame, Partner
from partners.ground.changes import Change, ChangedMeanwhile, change
from partners.ground.names import name_key
from partners.program.desk import Desk

KEYED = ("name", "phone", "street", "city", "state", "postal_code", "web")


def add_partner(*, desk: Desk, name: str, person: str = "", **values: Any) -> Partner:
    """A new partner; nothing but its name is needed, which also tells its kind. `person` is somebody there, by name."""
    with change(desk, gettext_noop("Partner %(partner)s added"), partner=name) as book:
        given = {"name": name, "kind": kind_named(name), **values}
        partner = book.add(Partner(**given, **keys(**_keyed(given))))
        if person:
            add_contact(desk=desk, partner=partner, name=person)
        return partner


def edit_partner(*, desk: Desk, partner: Partner, seen: int | None = None, **values: Any) -> Partner:
    with change(desk, gettext_noop("Partner %(partner)s changed"), partner=partner) as book:
        now = {name: getattr(partner, name) for name in KEYED} | _keyed(values)
        book.update(partner, seen=seen, **values, **keys(**now))
        if "also_called" in values:
            _know_people(book, partner)
        return partner


def keep_two(*, desk: Desk, partner: Partner, other: Partner) -> None:
    """They look like one and are two; said once more it changes nothing."""
    words = gettext_noop("%(partner)s and %(other)s are two")
    with change(desk, words, partner=partner.name, other=other.name) as book:
        known = Q(partner=partner, other=other) | Q(partner=other, other=partner)
        if not NotSame.objects.filter(known).exists():
            book.add(NotSame(partner=partner, other=other))


def rest(*, desk: Desk, partner: Partner, until: date | None, why: str = "") -> Partner:
    """Don't ask before `until`. A rest that lasts longer already stays; None ends it."""
    with change(desk, gettext_noop("Rest of %(partner)s changed"), partner=partner) as book:
        _catch_up(partner, "rest_until", "rest_why")
        if until is None:
            return book.update(partner, rest_until=None, rest_why="")
        if partner.rest_until is not None and partner.rest_until >= until:
            return partner
        return book.update(partner, rest_until=until, rest_why=why)


def never_ask(*, desk: Desk, partner: Partner, never: bool) -> Partner:
    words = gettext_noop("%(partner)s is not to be asked again") if never else gettext_noop("%(partner)s may be asked")
    with change(desk, words, partner=partner) as book:
        _catch_up(partner, "never_ask")
        return book.update(partner, never_ask=never)


def heard(*, desk: Desk, partner: Partner, day: date) -> Partner:
    """There was word from or to the partner on `day`; the latest such day is kept."""
    with change(desk, gettext_noop("Word from %(partner)s"), partner=partner) as book:
        _catch_up(partner, "last_heard_on")
        if partner.last_heard_on is not None and partner.last_heard_on >= day:
            return partner
        return book.update(partner, last_heard_on=day)


def add_contact(*, desk: Desk, partner: Partner, name: str, **values: Any) -> Contact:
    with change(desk, gettext_noop("%(contact)s at %(partner)s added"), contact=name, partner=partner) as book:
        _about(book, partner)
        contact = book.add(Contact(partner=partner, name=name, name_key=name_key(name), **values))
        _know_people(book, partner)
        return contact


def edit_contact(*, desk: Desk, contact: Contact, seen: int | None = None, **values: Any) -> Contact:
    """New values for a person; with `left_on` the person is there no longer, and is not searched for any more."""
    partner = contact.partner
    with change(desk, gettext_noop("%(contact)s at %(partner)s changed"), contact=contact, partner=partner) as book:
        _about(book, partner)
        folded = {"name_key": name_key(values["name"])} if "name" in values else {}
        book.update(contact, seen=seen, **values, **folded)
        _know_people(book, partner)
        return contact


def remove_contact(*, desk: Desk, contact: Contact) -> None:
    """Take out a person entered by mistake. Raises ProtectedError where a visit names the person."""
    partner = contact.partner
    with change(desk, gettext_noop("%(contact)s at %(partner)s removed"), contact=contact, partner=partner) as book:
        _about(book, partner)
        book.remove(contact)
        _know_people(book, partner)


def _keyed(values: dict[str, Any]) -> dict[str, str]:
    return {name: values[name] for name in KEYED if name in values}


def _about(book: Change, partner: Partner) -> None:
    if not book.event.about_model:
        book.about(partner)


def _catch_up(partner: Partner, *names: str) -> None:
    """What a verb works out by itself stands on the row as it is now, so that nobody's form is in its way."""
    try:
        partner.refresh_from_db(fields=["version", *names], from_queryset=Partner.objects.select_for_update())
    except Partner.DoesNotExist:
        raise ChangedMeanwhile(None) from None


def _know_people(book: Change, partner: Partner) -> None:
    _catch_up(partner, "people_key")
    book.update(partner, people_key=people_there(partner))


def people_there(partner: Partner) -> str:
    """The key of the other names of the partner, and of the people who are there now."""
    there = partner.contacts.filter(left_on=None).values_list("name", flat=True)
    return people_key([*partner.other_names, *there])
