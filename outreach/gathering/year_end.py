"""The facts of a year-end note: what one partner gave in a year of the program, and what it became."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Any

from django.db.models import Prefetch, QuerySet

from outreach.documents.year_end_note import Facts
from outreach.gathering.compared import other_givers
from outreach.gathering.gratitude import address_of, greeted, project_of, unit_for
from outreach.gathering.remembered import remembered
from outreach.gathering.school import letterhead, school_meant
from outreach.page.fonts import printable
from outreach.wording.counts import Item
from outreach.wording.year_end import Given
from partners.directory.models import Partner, PartnerQuerySet
from partners.funding.grant_models import Grant
from partners.gifts.models import Form, Gift
from partners.letters.models import LetterState
from partners.program.desk import Desk
from partners.school.project_models import Project
from partners.year.record import reached
from partners.year.span import Span, chosen, spans, this_year

Words = dict[str, Any]


def gather(desk: Desk, partner: Partner, words: Words) -> Facts:
    """`words["year"]` is the calendar year in which the program's year begins; without it, this one."""
    language = words.get("language") or desk.program.language
    head, span = letterhead(school_meant(desk), desk), span_of(desk, words)
    return Facts(
        paper=desk.program.paper,
        letterhead=head,
        day=desk.day,
        given=replace(given(desk, partner, span, language), teacher=desk.signs.teacher, school=head.school),
        teacher=desk.signs.teacher,
        role=desk.signs.title,
        address=address_of(partner),
        paragraphs=tuple(words.get("paragraphs", ())),
        enclosures=tuple(words.get("enclosures", ())),
        ends=span.last,
    )


def span_of(desk: Desk, words: Words) -> Span:
    now, year = this_year(desk), str(words.get("year", ""))
    return now if year in ("", str(now.year)) else chosen(desk, spans(desk), year)


def compared(desk: Desk, partner: Partner, slug: str) -> tuple[tuple[str, ...], str]:
    """The other givers, whom the note does not name, and the last note to this one."""
    gone = desk.letters.filter(partner=partner, document=slug, day__lt=desk.day).exclude(state=LetterState.DRAFT)
    last = gone.order_by("-day", "-pk").values_list("words", flat=True).first() or {}
    return other_givers(desk, partner), "\n\n".join(last.get("paragraphs", []))


def given(desk: Desk, partner: Partner, span: Span, language: str) -> Given:
    """A person who was forgotten is greeted no more: who wanted that has left the partner, too."""
    gifts = came(desk, partner, span)
    projects, open_ones = became(desk, gifts)
    goods = [gift for gift in gifts if gift.form not in (Form.LOAN, Form.MONEY)]
    return Given(
        language=language,
        year=span.name,
        partner=partner.name,
        contact=greeted(partner),
        items=summed(goods),
        money=any(gift.form == Form.MONEY for gift in gifts),
        grants=grants(desk, partner, span),
        lent=summed(gift for gift in gifts if gift.form == Form.LOAN),
        became=tuple(project.what_it_became for project in projects),
        untold=tuple(printable(project.title) for project in open_ones),
        reached=projects[0].children() if len(projects) == 1 else None,
        is_over=span.last < desk.day,
        taught=taught_in(desk, span),
    )


@remembered
def taught_in(desk: Desk, span: Span) -> int | None:
    """All students of the year, where it is known how many there were."""
    return sum(one.students for one in reached(desk, span)) or None


def came(desk: Desk, partner: Partner, span: Span) -> list[Gift]:
    """What came of the partner in the year, in the order in which it came."""
    known: list[Gift] | None = getattr(partner, "came", None)
    if known is not None and span.first >= oldest_known(desk):
        return [gift for gift in known if span.goes_on(gift.day)]
    return list(with_lines(desk.gifts.filter(partner=partner, **span.within("day"))))


def with_lines(gifts: QuerySet[Any]) -> QuerySet[Any]:
    return gifts.select_related("project", "partner").prefetch_related("lines").order_by("day", "pk")


def oldest_known(desk: Desk) -> date:
    """From this day on, what many partners gave is fetched together: this year and the one before."""
    return this_year(desk).before.first


def together(desk: Desk, rows: PartnerQuerySet) -> PartnerQuerySet:
    """Partners for a run of notes: with who is there, and with what came of each."""
    gifts, grants = with_lines(desk.gifts.filter(day__gte=oldest_known(desk))), desk.grants.awarded()
    return rows.with_people().prefetch_related(
        Prefetch("gifts", gifts, to_attr="came"),
        Prefetch("grants", grants.order_by("answered_on", "pk"), to_attr="won"),
    )


def became(desk: Desk, gifts: Iterable[Gift]) -> tuple[list[Project], list[Project]]:
    """The projects that it was for, each once: of which a sentence says what they became, and of which one is missing.

    What came for nothing in particular needs no such sentence: the note is whole without.
    """
    told: dict[int, Project] = {}
    untold: dict[int, Project] = {}
    for gift in gifts:
        project = project_of(desk, gift)
        if project is not None and project.told_of(gift.day):
            told[project.pk] = project
        elif project is not None and not project.nothing_to_tell:
            untold[project.pk] = project
    return list(told.values()), [project for pk, project in untold.items() if pk not in told]


def summed(gifts: Iterable[Gift]) -> tuple[Item, ...]:
    """The things of all of them; what came several times is counted together."""
    found: dict[tuple[str, str], list[int | None]] = {}
    for gift in gifts:
        for line in gift.lines.all():
            found.setdefault((line.description, line.unit), []).append(line.quantity)
    return tuple(
        Item(what, sum(count or 0 for count in counts) if all(counts) else None, unit_for(what, unit))
        for (what, unit), counts in found.items()
    )


def grants(desk: Desk, partner: Partner, span: Span) -> tuple[str, ...]:
    """What was awarded in the year, by title."""
    won: list[Grant] | None = getattr(partner, "won", None)
    if won is None:
        won = list(desk.grants.awarded().filter(partner=partner).order_by("answered_on", "pk"))
    return tuple(grant.title for grant in won if grant.answered_on is not None and span.goes_on(grant.answered_on))
