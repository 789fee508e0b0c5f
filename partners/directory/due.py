"""Partners gone quiet: nobody was in touch with them for as long as the program says."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet

from partners.directory.actions import never_ask, rest
from partners.directory.models import Partner
from partners.directory.quiet import cut_off
from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import page_link, row_link
from partners.ground.months import same_month_next_year
from partners.ground.words import gettext as _

QUIET = "directory.quiet"


def _quiet(row: tuple[Any, ...], day: date) -> DueLine:
    pk, heard_on, name, phone = row
    settle = row_link("agenda:settle", pk, QUIET)
    visit = f"{page_link('visits:visit-new')}?partner={pk}"
    return DueLine(
        source=QUIET,
        pk=pk,
        due=heard_on,
        hand=Hand.QUIET,
        verb=_("Say hello to"),
        who=name,
        who_url=row_link("directory:partner-detail", pk),
        what="",
        why=_("last in touch on %(day)s") % {"day": spelled(heard_on, "DATE_FORMAT")},
        partner_id=pk,
        phone=phone,
        acts=(
            Act(_("Log a visit"), visit, opens=True),
            Act(_("Let rest for a year"), settle, code="rest"),
            Act(_("Not this month"), settle, code="not_this_month"),
            Act(_("Never ask again"), settle, code="never"),
        ),
    )


def _gone_quiet(desk: Any) -> QuerySet[Partner]:
    return desk.partners.gone_quiet_since(cut_off(desk), desk.day)  # type: ignore[no-any-return]


def _rest(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    rest(desk=desk, partner=row, until=same_month_next_year(day), why=_("gone quiet"))


def _move(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    rest(desk=desk, partner=row, until=due, why=_("not this month"))


def _never(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    never_ask(desk=desk, partner=row, never=True)


SOURCES: tuple[DueSource, ...] = (
    DueSource(
        slug=QUIET,
        hand=Hand.QUIET,
        rows=_gone_quiet,
        date_field="last_heard_on",
        columns=("pk", "last_heard_on", "name", "phone"),
        line=_quiet,
        settle={"rest": _rest, "move": _move, "never": _never},
        by=lambda desk: (cut_off(desk), desk.day),
    ),
)
