"""Is it in the book already? Asked of the desk before a new partner is written."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Q
from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from partners.directory.actions import KEYED
from partners.directory.duplicates import Described, Likely, likely_same, narrowed
from partners.directory.keys import keys
from partners.directory.models import BETWEEN_NAMES, Partner
from partners.directory.partner_field import LAST_SIGN, PICKED
from partners.directory.why_same import WORDS
from partners.ground.names import name_key
from partners.program.desk import Desk

# Up to here all partners are compared, which also finds a slip in the first letters of a name.
COMPARE_ALL = 5000
AT_MOST = 5
COLUMNS = ("pk", "name", "name_key", "phone_key", "address_key", "web_key", "also_called")


@dataclass(frozen=True)
class LikelyPartner:
    """A partner in the book that may be the one being entered, and the reasons in words."""

    partner: Partner
    why: str


def likely_partners(desk: Desk, *, name: str, **values: str) -> list[LikelyPartner]:
    """At most five partners of the desk that may be the one described, likeliest first. `values`: see `keys`."""
    made = keys(name=name, **values)
    described = Described(None, name, made["name_key"], made["phone_key"], made["address_key"], made["web_key"])
    by_partner: dict[int | None, Likely] = {}
    for one in likely_same(described, _others(desk, described)):
        by_partner.setdefault(one.pk, one)
    likely = list(by_partner.values())[:AT_MOST]
    partners = desk.partners.order_by().in_bulk([one.pk for one in likely if one.pk is not None])
    return [
        LikelyPartner(partners[one.pk], get_text_list([str(WORDS[why]) for why in one.why], _("and")))
        for one in likely
        if one.pk in partners
    ]


def _others(desk: Desk, described: Described) -> list[Described]:
    rows = list(desk.partners.order_by().values_list(*COLUMNS)[: COMPARE_ALL + 1])
    if len(rows) > COMPARE_ALL:
        found: dict[int, tuple[Any, ...]] = {}
        for condition in _conditions(described):
            found |= {row[0]: row for row in desk.partners.filter(condition).order_by().values_list(*COLUMNS)}
        rows = list(found.values())
    return described_as(rows)


def described_as(rows: Iterable[tuple[Any, ...]]) -> list[Described]:
    """Each partner by its name and by every other name it was written under; `rows` hold COLUMNS."""
    found = []
    for pk, name, key, *others, also_called in rows:
        found.append(Described(pk, name, key, *others))
        more = ((other, name_key(other)) for other in also_called.split(BETWEEN_NAMES) if other)
        found += [Described(pk, other, folded, *others) for other, folded in more if folded != key]
    return found


def _conditions(described: Described) -> list[Q]:
    """One for each index, asked one after the other: joined by OR the database would read every partner."""
    ask = narrowed(described)
    conditions = [~Q(also_called="")]
    conditions += [Q(name_key__gte=start, name_key__lt=start + LAST_SIGN) for start in ask.name_starts]
    if ask.phone:
        conditions.append(~Q(phone_key="") & Q(phone_key=ask.phone))
    if ask.address_start:
        start = ask.address_start
        conditions.append(~Q(address_key="") & Q(address_key__gte=start, address_key__lt=start + LAST_SIGN))
    if ask.web:
        conditions.append(~Q(web_key="") & Q(web_key=ask.web))
    return conditions


def compared(partner: Partner) -> dict[str, str]:
    """What `likely_partners` compares of a partner that is in the book."""
    return {name: getattr(partner, name) for name in KEYED}


def picked_of_likely(data: Any) -> Any:
    """ "Is it one of these?" answered by a button: the partner is picked and the typed name is done with."""
    if not data or not data.get("one_of"):
        return data
    changed = data.copy()
    changed[f"partner{PICKED}"], changed["partner"] = data["one_of"], ""
    return changed
