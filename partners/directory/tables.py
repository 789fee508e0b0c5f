"""Partners as a list."""

from __future__ import annotations

from collections import Counter
from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.db.models import F
from django.utils.html import format_html
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext_lazy as _

from partners.directory.models import BusinessKind, Partner, PartnerKind, PartnerQuerySet
from partners.directory.out import words
from partners.directory.phones import national, tel_link
from partners.ground.days import in_list
from partners.ground.tables import ASIDE, BARE, BookTable


def people_class(table: PartnerTable) -> str:
    """A phone has room for the people there only where a name was looked for, which may be theirs."""
    return "brief bare" if table.searched else "brief bare spare"


def asking_class(table: PartnerTable) -> str:
    """A day stays on one line; with the reason behind it, it does not."""
    return "brief bare" if table.resting else "brief bare day"


def call_link(stored: str, name: str) -> str:
    """The number to call; a phone shows the word alone."""
    link = tel_link(stored)
    if not link:
        return stored
    number = format_html('<span class="number">{}</span>', national(stored))
    word = format_html('<span class="word">{}<span class="unseen"> {}</span></span>', gettext("Call"), name)
    return format_html('<a class="call" href="{}">{}{}</a>', link, number, word)


class PartnerTable(BookTable):
    """Sorted by what an index holds: the folded name, and the day last heard of. Give it the desk as `desk`."""

    name = django_tables2.Column(verbose_name=_("Name"), orderable=True, order_by=("name_key", "pk"))
    what = django_tables2.Column(verbose_name=_("What"), accessor="kind", attrs=BARE)
    people = django_tables2.Column(verbose_name=_("People"), accessor="pk", attrs={"td": {"class": people_class}})
    phone = django_tables2.Column(verbose_name=_("Phone"), default="", attrs=ASIDE)
    heard = django_tables2.Column(
        verbose_name=_("Last heard of"),
        accessor="last_heard_on",
        orderable=True,
        default="",
        attrs={"td": {"class": "brief day"}},
    )
    asking = django_tables2.Column(
        verbose_name=_("Asking"), accessor="never_ask", attrs={"td": {"class": asking_class}}
    )

    caption = _("Partners")
    counts = True

    class Meta(BookTable.Meta):
        empty_text = _("No partner is found.")

    def __init__(self, *args: Any, desk: Any, searched: bool = False, resting: bool = False, **kwargs: Any) -> None:
        self.desk = desk
        self.searched = searched
        # Why they rest stands there where somebody looks for who does.
        self.resting = resting
        self.namesakes: set[str] = set()
        self.towns: set[str] = set()
        super().__init__(*args, **kwargs)

    def order_heard(self, partners: PartnerQuerySet, is_descending: bool) -> tuple[PartnerQuerySet, bool]:
        # Never heard of stands behind the oldest on both database engines.
        heard = F("last_heard_on").desc(nulls_last=True) if is_descending else F("last_heard_on").asc(nulls_first=True)
        return partners.order_by(heard, "-pk" if is_descending else "pk"), True

    def before_render(self, request: Any) -> None:
        counted = Counter(row.record.name_key for row in self.paginated_rows)
        self.namesakes = {key for key, count in counted.items() if count > 1}
        self.towns = set(self.desk.schools.values_list("city", flat=True))

    def render_name(self, record: Partner) -> str:
        """With its street where another of that name stands on the page."""
        if record.name_key in self.namesakes and record.street:
            return format_html('<a href="{}">{}, {}</a>', record.get_absolute_url(), record.name, record.street)
        return format_html('<a href="{}">{}</a>', record.get_absolute_url(), record.name)

    def render_what(self, record: Partner) -> str:
        """With the town, where it is not that of a school."""
        other = record.business_kind in ("", BusinessKind.OTHER)
        what = words(PartnerKind, record.kind) if other else words(BusinessKind, record.business_kind)
        return f"{what}, {record.city}" if record.city and record.city not in self.towns else what

    def render_people(self, record: Any) -> str:
        names = [person.name for person in record.present]
        more = len(names) - 2
        shown = ", ".join(names[:2])
        if more > 0:
            shown += ngettext(" and %(more)d more", " and %(more)d more", more) % {"more": more}
        return shown

    def render_phone(self, value: str, record: Partner) -> str:
        return call_link(value, record.name)

    def render_heard(self, value: Any) -> str:
        return in_list(value, self.desk.day)

    def render_asking(self, record: Partner) -> str:
        if record.never_ask:
            return gettext("never ask")
        if record.rest_until is not None and record.rests_on(self.desk.day):
            words = format_html(gettext("not before {day}"), day=in_list(record.rest_until, self.desk.day))
            why = record.rest_why if self.resting and self.desk.writes else ""
            return format_html("{}: {}", words, why) if why else words
        return ""
