"""The facts of the yearly summary and of the talk card: the same counts as on the Year page, and whom one may name."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from outreach.documents import talk_card, yearly_summary
from outreach.documents.yearly_summary import MOST_BECAME, MOST_NAMED, MOST_NEEDS
from outreach.gathering.school import letterhead, school_meant
from outreach.wording.year_facts import BOARD, PARTNERS, PRINCIPAL, Facts, Research, Worth
from partners.directory.models import NAMED_IN_PUBLIC, NAMED_IN_SCHOOL
from partners.helpers.figures import hour_value, worth_cents
from partners.letters.actions import draft_of
from partners.program.desk import Desk
from partners.promises.models import Side
from partners.school.models import School
from partners.year.counted import YearRecord
from partners.year.evidence import sentence_of
from partners.year.open_things import desk_of
from partners.year.record import KINDS, strict_gifts, year_record
from partners.year.span import Span, chosen, spans

Words = dict[str, Any]


def gather(desk: Desk, school: School | None, words: Words) -> Facts:
    """`words` are the teacher's own: readers, year, needs, what research says, which figures are told."""
    program, own = desk.program, desk_of(desk, school)
    span = chosen(desk, spans(desk), str(words.get("year", "")))
    record = year_record(own, span)
    readers = words.get("readers") or PRINCIPAL
    language = words.get("language") or program.language
    names, others = named(own, span, readers)
    return Facts(
        language=language,
        paper=program.paper,
        letterhead=letterhead(school or school_meant(desk), desk),
        day=desk.day,
        year=span.name,
        first=span.first,
        last=span.last,
        readers=readers,
        teacher=desk.signs.teacher,
        role=desk.signs.title,
        pocket_cents=record.pocket_cents if words.get("pocket") and readers != PARTNERS else 0,
        worth=worth(desk, record) if words.get("worth") else None,
        worth_unknown=bool(words.get("worth")) and worth(desk, record) is None,
        became=tuple(one.what_it_became for one in record.became[:MOST_BECAME]),
        needs=tuple(needs(own, words, readers)),
        names=names,
        others=others,
        amounts=desk.reads_amounts,
        research=research(words, language),
        **counts(record),
    )


def counts(record: YearRecord) -> dict[str, Any]:
    sides = (record.promised[Side.THEM], record.promised[Side.US])
    days = record.thanked.days
    return {
        "students": record.students,
        "classes": sum(one.classes for one in record.reached),
        "gifts": tuple(record.gifts.forms.items()),
        "families": record.gifts.families,
        "trades": record.trades.all,
        "trades_kept": record.trades.kept,
        "trades_open": record.trades.open,
        "promised": (sides[0].was_due, sides[1].was_due),
        "kept": (sides[0].kept, sides[1].kept),
        "helpers": record.hours.helpers,
        "minutes": record.hours.minutes,
        "grants_asked": record.granted.asked,
        "grants_asked_cents": record.granted.asked_cents,
        "grants_awarded": record.granted.awarded,
        "grants_awarded_cents": record.granted.awarded_cents,
        "grants_spent_cents": record.granted.spent_cents,
        "grants_back_cents": record.granted.back_cents,
        "thanks_owed": record.thanked.owed,
        "thanks_said": record.thanked.said,
        "thanks_days": Decimal(days.numerator) / days.denominator if days is not None else None,
        "gave_before": record.renewal.before,
        "gave_again": record.renewal.again,
        "months": tuple(tuple(record.months[kind]) for kind in KINDS),
    }


def worth(desk: Desk, record: YearRecord) -> Worth | None:
    """Only with its year and its source; nothing where nobody published a figure."""
    program = desk.program
    hour = hour_value(record.span.year, program.hour_value_cents, program.hour_value_year, program.hour_value_source)
    if hour is None or not record.hours.minutes:
        return None
    return Worth(worth_cents(record.hours.minutes, hour), hour.cents, hour.year, hour.source)


def needs(desk: Desk, words: Words, readers: str) -> list[str]:
    """The teacher's own lines; else the first of the wish list. Who is thanked is asked for nothing."""
    if "needs" in words:
        return [str(line) for line in words["needs"]][:MOST_NEEDS]
    return [] if readers == PARTNERS else needs_of_the_list(desk)


def needs_of_the_list(desk: Desk) -> list[str]:
    rows = desk.needs.open().order_by("needed_by", "pk")[:MOST_NEEDS]
    return [f"{need.what} ({need.wanted})" if need.wanted else need.what for need in rows]


def named(desk: Desk, span: Span, readers: str) -> tuple[tuple[str, ...], int]:
    """Who gave or traded in the year and may be named to these readers, and how many more did."""
    gave = strict_gifts(desk).from_partners().filter(**span.within("day")).order_by().values("partner")
    traded = desk.trades.going_on().filter(**span.within("agreed_on")).order_by().values("partner")
    partners = desk.partners.filter(pk__in=gave) | desk.partners.filter(pk__in=traded)
    allowed = NAMED_IN_SCHOOL if readers == PRINCIPAL else NAMED_IN_PUBLIC
    may = partners.filter(may_name__in=allowed).order_by("name_key", "pk")
    names = tuple(may.values_list("name", flat=True)[:MOST_NAMED])
    return names, partners.count() - len(names)


def research(words: Words, language: str) -> Research | None:
    one = sentence_of(words.get("research") or "")
    if one is None:
        return None
    source = f"{one.authors}, {one.source}"
    return Research(one.sentence[language], source, one.year, one.kind, one.limits[language])


def gather_talk(desk: Desk, school: School | None, words: Words) -> talk_card.Facts:
    """As the summary is written now, for who listens in public; nobody is named, whoever they are."""
    draft = draft_of(desk, yearly_summary.SLUG, school=school)
    kept = {**(draft.words if draft else {}), **words, "readers": BOARD, "pocket": False}
    return talk_card.Facts(year=replace(gather(desk, school, kept), names=(), others=0))
