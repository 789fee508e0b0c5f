"""One search over everything that has a name or a title, whatever accents and case."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Exists, OuterRef, QuerySet
from django.utils.functional import Promise as LazyText
from django.utils.text import Truncator
from django.utils.translation import gettext_lazy as _

from partners.ground.names import fold, name_key
from partners.letters.own_words import latest
from partners.program.desk import Desk
from partners.program.models import Language, Opened

AT_MOST = 10
# Names of partners and people are kept folded. Of everything else the newest rows are folded here; older ones are
# found by the database, which knows case but not accents.
FOLDED_HERE = 2000
LONGEST_SHOWN = 80


@dataclass(frozen=True)
class Found:
    label: str
    url: str
    detail: str = ""


@dataclass(frozen=True)
class Group:
    """What was found of one kind; `more` where there was no room for all."""

    title: str | LazyText
    found: list[Found] = field(default_factory=list)
    more: bool = False


def find(desk: Desk, typed: str) -> list[Group]:
    """The groups in which something was found, in the order of the bar; nothing for no letter and no digit."""
    if not fold(typed):
        return []
    groups = (_group(title, search(desk, typed)) for title, what, search in SEARCHES if desk.reads(what))
    return [group for group in groups if group.found]


def _group(title: str | LazyText, found: Iterator[Found]) -> Group:
    shown = [one for one, _place in zip(found, range(AT_MOST + 1), strict=False)]
    return Group(title, shown[:AT_MOST], len(shown) > AT_MOST)


def _partners(desk: Desk, typed: str) -> Iterator[Found]:
    for partner in desk.partners.search(typed)[: AT_MOST + 1]:
        yield Found(partner.name, partner.get_absolute_url(), partner.city)


def _people(desk: Desk, typed: str) -> Iterator[Found]:
    people = desk.contacts.select_related("partner")
    for word in name_key(typed).split():
        people = people.filter(name_key__contains=word)
    for contact in people.order_by("name_key", "pk")[: AT_MOST + 1]:
        left = _("no longer there") if contact.left_on else contact.role
        detail = ", ".join(filter(None, [contact.partner.name, str(left)]))
        yield Found(contact.name, contact.partner.get_absolute_url(), detail)


def _needs(desk: Desk, typed: str) -> Iterator[Found]:
    for need in _holding(desk.needs.order_by("-pk"), "what", typed):
        yield Found(need.what, need.get_absolute_url(), str(need.get_state_display()))


def _projects(desk: Desk, typed: str) -> Iterator[Found]:
    for project in _holding(desk.projects.order_by("-pk").select_related("school"), "title", typed):
        yield Found(project.title, project.get_absolute_url(), project.school.name if project.school else "")


def _trades(desk: Desk, typed: str) -> Iterator[Found]:
    for trade in _holding(desk.trades.order_by("-agreed_on", "-pk").select_related("partner"), "what", typed):
        yield Found(trade.what, trade.get_absolute_url(), trade.partner.name)


def _gifts(desk: Desk, typed: str) -> Iterator[Found]:
    own = Exists(desk.gifts.filter(pk=OuterRef("gift")))
    lines = desk.gift_lines.filter(own).order_by("-pk").select_related("gift__partner")
    for line in _holding(lines, "description", typed):
        yield Found(line.description, line.gift.get_absolute_url(), str(line.gift))


def _helpers(desk: Desk, typed: str) -> Iterator[Found]:
    helpers = desk.helpers.filter(forgotten_on=None)
    for word in name_key(typed).split():
        helpers = helpers.filter(name_key__contains=word)
    for helper in helpers.order_by("name_key", "pk")[: AT_MOST + 1]:
        stopped = str(_("no longer helping")) if helper.stopped_on else ""
        yield Found(helper.name, helper.get_absolute_url(), stopped)


def _grants(desk: Desk, typed: str) -> Iterator[Found]:
    for grant in _holding(desk.grants.order_by("-pk").select_related("partner"), "title", typed):
        yield Found(grant.title, grant.get_absolute_url(), grant.partner.name)


def _purchases(desk: Desk, typed: str) -> Iterator[Found]:
    for purchase in _holding(desk.purchases.order_by("-pk"), "what", typed):
        yield Found(purchase.what, purchase.get_absolute_url(), purchase.vendor)


def _free_days(desk: Desk, typed: str) -> Iterator[Found]:
    for occasion in _holding(desk.occasions.order_by("-pk"), "title", typed):
        yield Found(occasion.title, occasion.get_absolute_url(), occasion.place)


def _letters(desk: Desk, typed: str) -> Iterator[Found]:
    for letter in _holding(desk.letters.order_by("-day", "-pk"), "title", typed):
        yield Found(letter.title, letter.get_absolute_url(), str(letter.get_state_display()))


def _own_words(desk: Desk, typed: str) -> Iterator[Found]:
    """The teacher's own words as they stand now; guests have no page of them."""
    rows = latest(desk.wordings).order_by("-pk") if desk.writes else desk.wordings.none()
    for own in _holding(rows, "words", typed):
        yield Found(
            Truncator(own.words).chars(LONGEST_SHOWN),
            own.get_absolute_url(),
            str(dict(Language.choices).get(own.language, own.language)),
        )


def _holding(rows: QuerySet[Any], column: str, typed: str) -> list[Any]:
    """The newest rows whose text holds every word, at most one more than is shown; three queries."""
    words = name_key(typed).split()
    newest = rows.values_list("pk", column)[:FOLDED_HERE]
    texts = ((pk, fold(text)) for pk, text in newest)
    pks = [pk for pk, text in texts if all(word in text for word in words)][: AT_MOST + 1]
    if len(pks) <= AT_MOST and len(newest) == FOLDED_HERE:
        older = rows.filter(**{f"{column}__icontains": typed.strip()}).exclude(pk__in=pks)
        pks += older.values_list("pk", flat=True)[: AT_MOST + 1 - len(pks)]
    found = rows.order_by().in_bulk(pks)
    return [found[pk] for pk in pks]


SEARCHES: tuple[tuple[LazyText | str, Opened, Callable[[Desk, str], Iterator[Found]]], ...] = (
    (_("Partners"), Opened.PARTNERS, _partners),
    (_("People"), Opened.PARTNERS, _people),
    (_("Wish list"), Opened.WISH_LIST, _needs),
    (_("Projects"), Opened.PROJECTS, _projects),
    (_("Trades"), Opened.TRADES, _trades),
    (_("Gifts"), Opened.GIFTS, _gifts),
    (_("Helpers"), Opened.HELPERS, _helpers),
    (_("Grants"), Opened.MONEY, _grants),
    (_("Buying"), Opened.MONEY, _purchases),
    (_("Free days"), Opened.MONEY, _free_days),
    (_("Letters and sheets"), Opened.LETTERS, _letters),
    (_("Your words"), Opened.LETTERS, _own_words),
)
