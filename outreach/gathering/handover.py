"""The facts of the hand-over: of the whole book, or of one school with what belongs to no single one."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Max, QuerySet, Sum

from outreach.documents.handover import Facts, Part
from outreach.gathering import handover_rows as of
from outreach.gathering.school import grades, letterhead, school_meant
from outreach.wording.counts import students
from outreach.wording.dates import spelled
from outreach.wording.handover import KINDS, Listing
from partners.asking.progress import progress
from partners.directory.models import Partner
from partners.gifts.models import GiftLine
from partners.program.desk import Desk
from partners.school.class_words import days_words
from partners.school.models import ClosureKind, School
from partners.year.handover_actions import former_teacher
from partners.year.open_things import OPEN, at, desk_of, homes
from partners.year.whom_to_ask import ASK, NEVER, REST, whom_to_ask

Words = dict[str, Any]
TOGETHER = "For all schools together"
CLOSINGS_SHOWN = 12
PLACES_SHOWN = 400


def gather(desk: Desk, school: School | None, words: Words) -> Facts:
    program, own = desk.program, desk_of(desk, school)
    schools = list(own.schools)
    belongs = homes(desk)
    return Facts(
        paper=program.paper,
        letterhead=letterhead(school or school_meant(desk), desk),
        day=desk.day,
        program=program.name,
        teacher=program.teacher,
        former=former_teacher(desk),
        school=school.name if school else "",
        figures=figures(own),
        schools=tuple(Part(one.name, calendar(own, one)) for one in schools),
        parts=tuple(part(own, one, belongs) for one in [*schools, None]),
    )


def part(desk: Desk, school: School | None, belongs: dict[int, frozenset[int]]) -> Part:
    """What names this school; without one, what names none, or several."""
    found = {**lists(desk, school), **whom(desk, school, belongs)}
    listings = tuple(Listing(kind, found[kind]) for kind in KINDS if kind in found)
    return Part(school.name, office(school), listings) if school else Part(TOGETHER, (), listings)


def lists(desk: Desk, school: School | None) -> dict[str, tuple[of.Row, ...]]:
    def those(kind: str) -> QuerySet[Any]:
        return at(OPEN[kind].found(desk), school)

    papers = [of.paper_row(desk, one) for one in those("papers")]
    found = {
        "theirs": of.rows(desk, those("theirs"), of.promise_row),
        "ours": of.rows(desk, those("ours"), of.promise_row),
        "waiting": of.rows(desk, those("waiting"), of.ask_row),
        "thanks": (
            *of.rows(desk, those("thanks"), of.thanks_row),
            *of.rows(desk, those("families"), of.families_row),
        ),
        "trades": of.rows(desk, those("trades"), of.trade_row),
        "loans": tuple(of.gift_row(desk, one, one.return_on, one.place) for one in those("loans")),
        "accept": of.accept_rows(desk, those("accept"), those("awards")),
        "needs": of.rows(desk, needs(desk, school), of.need_row),
        "projects": of.rows(desk, those("projects"), of.project_row),
        "sessions": of.rows(desk, those("sessions"), of.session_row),
        "helpers": of.rows(desk, at(desk.helpers.active().order_by("name_key", "pk"), school), of.helper_row),
        "kits": of.rows(desk, those("kits"), of.kit_row),
        "grants": of.rows(desk, those("grants"), of.grant_row),
        "money": of.rows(desk, those("money"), of.purchase_row),
        "places": of.place_rows(placed(desk, school)),
        "letters": of.rows(desk, those("letters"), of.letter_row),
    }
    if school is None:
        return {**found, "free_days": of.rows(desk, those("free_days"), of.free_day_row), "papers": tuple(papers)}
    rules = of.rows(desk, school.acceptance_rules.all(), of.rule_row)
    return {
        **found,
        "approvals": of.rows(desk, those("approvals"), of.approval_row),
        "procedures": (*of.rows(desk, school.procedures.all(), of.procedure_row), *rules),
        "papers": (*papers, *of.rows(desk, school.certificates.all(), of.certificate_row)),
    }


def needs(desk: Desk, school: School | None) -> list[Any]:
    rows = at(desk.needs.open().select_related("project").order_by("needed_by", "pk"), school)
    return progress(desk, rows)


def placed(desk: Desk, school: School | None) -> QuerySet[Any]:
    rows = at(desk.gifts.exclude(place=""), school).filter(returned_on=None).prefetch_related("lines")
    return rows.order_by("-day", "-pk")[:PLACES_SHOWN]


def whom(desk: Desk, school: School | None, belongs: dict[int, frozenset[int]]) -> dict[str, tuple[of.Row, ...]]:
    """Each partner once: where everything with them names one school, there; else where all schools stand together."""
    mine = {one.pk for one in desk.schools}
    partners = [
        one
        for one in desk.partners.with_people().order_by("name_key", "pk")
        if stands_at(belongs.get(one.pk, frozenset()), school, mine)
    ]
    gave = last_gifts(desk, partners)
    sorted_by: dict[str, list[of.Row]] = {ASK: [], REST: [], NEVER: []}
    for one in sorted(whom_to_ask(desk, partners, school), key=lambda one: one.again or desk.day):
        sorted_by[one.how].append(of.partner_row(desk, one, gave.get(one.partner.pk, "")))
    return {how: tuple(rows) for how, rows in sorted_by.items()}


def stands_at(named: frozenset[int], school: School | None, mine: set[int]) -> bool:
    if len(named) == 1:
        return named == {school.pk} if school else False
    return school is None and (not named or bool(named & mine))


def last_gifts(desk: Desk, partners: list[Partner]) -> dict[int, str]:
    """What each gave last, and when."""
    given = desk.gifts.filter(partner__in=[one.pk for one in partners]).order_by()
    latest = dict(given.values_list("partner").annotate(Max("day")))
    lines = GiftLine.objects.filter(program=desk.program, gift__in=given).order_by("position", "pk")
    found: dict[int, str] = {}
    for partner, day, what in lines.values_list("gift__partner", "gift__day", "description"):
        if latest.get(partner) == day:
            found.setdefault(partner, f"{of.day_words('last gave on', day)}: {what}")
    return {pk: found.get(pk, of.day_words("last gave on", day)) for pk, day in latest.items()}


def office(school: School) -> tuple[tuple[str, str], ...]:
    return tuple(
        (label, words)
        for label, words in (
            ("Principal", school.principal),
            ("Office", school.phone),
            ("Gifts belong to", school.legal_name),
            ("EIN", school.ein),
            ("Receipts come from", school.receipts_by),
        )
        if words
    )


def figures(desk: Desk) -> tuple[tuple[str, str], ...]:
    """The rules of the program, and how many there are of what."""
    program, taught = desk.program, desk.classes.with_students()
    classes = taught.aggregate(all=Sum("students"))["all"]
    counted = f"{students(classes, 'en')} in {taught.count()} classes" if classes else ""
    return (
        ("Students", counted),
        ("Partners", f"{desk.partners.count():,}"),
        ("Helpers", f"{desk.helpers.active().count():,}"),
        (
            "Coming back to an ask",
            f"after {program.follow_up_days} days, once more {program.last_follow_up_days} days later, then rest",
        ),
        ("Thanks", f"within {program.thank_within} school days; late after {program.thank_late}"),
        ("After a gift", f"nobody is asked again for {program.rest_months_after_gift} months"),
        ("Gone quiet", f"when nothing was heard for {program.quiet_after_months} months"),
        ("After a colleague’s ask", f"{program.colleague_days} days are left free"),
        ("Fiscal year", f"begins in {date(2000, program.fiscal_year_starts, 1):%B}"),
        ("Letters", f"in {program.get_language_display()} on {program.get_paper_display()} paper"),
    )


def calendar(desk: Desk, school: School) -> tuple[tuple[str, str], ...]:
    """A school's days as they lie ahead, and its classes."""
    ahead = school.school_days.filter(last__gte=desk.day).order_by("first", "pk")
    years = [stretch(one) for one in ahead if one.kind == ClosureKind.YEAR]
    closed = [one for one in ahead if one.kind != ClosureKind.YEAR]
    told = "; ".join(f"{stretch(one)}{f' ({one.title})' if one.title else ''}" for one in closed[:CLOSINGS_SHOWN])
    more = f"; and {len(closed) - CLOSINGS_SHOWN} more" if len(closed) > CLOSINGS_SHOWN else ""
    cycle = f"{school.cycle_length} days in rotation" if school.cycle_length else days_words(school.weekdays, 0)
    classes = list(desk.classes.with_students().filter(school=school).values_list("students", "grade"))
    taught = [grade for _students, grade in classes]
    count = students(sum(one for one, _grade in classes), "en")
    reach = f"{len(classes)}, {count}, {grades(min(taught), max(taught), 'en')}" if classes else ""
    return (
        ("School year", "; ".join(years)),
        ("School days", cycle),
        ("Closed", f"{told}{more}"),
        ("Classes", reach),
    )


def stretch(days: Any) -> str:
    if days.first == days.last:
        return spelled(days.first, "en")
    return f"{spelled(days.first, 'en')} to {spelled(days.last, 'en')}"
