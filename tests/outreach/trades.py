"""Facts for the sheets of trades: an ordinary one of Alder Falls, and the worst that the record can hold."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from outreach.documents import class_plan, trade_memo, trade_receipt
from outreach.documents.class_plan import ClassPart
from outreach.documents.trade_memo import Part
from outreach.wording.counts import Item
from tests.outreach.sheets import LONG_NAME, LONG_PERSON, LONG_SCHOOL, SCHOOL

MEMO = trade_memo.Facts(
    language="en",
    paper="letter",
    letterhead=SCHOOL,
    day=date(2027, 2, 16),
    agreed_on=date(2027, 2, 16),
    school="Millrace Elementary",
    teacher="June Castellanos",
    partner="Riverbend Garden Center",
    contact="Dana Whitlock",
    make=Part(Item("decorated seed packets", 250, kind="4 by 5 inches", at_most=300), date(2027, 4, 16), "June"),
    plain=Part(Item("plain seed packets", 330), date(2027, 3, 5), "Dana Whitlock"),
    spare_percent=10,
    gives=(Part(Item("terracotta pots, 4 inch", 120), date(2027, 4, 30), "Riverbend’s van"),),
    materials="pencil, watercolor, waterproof pen",
    display_from=date(2027, 4, 19),
    display_until=date(2027, 5, 14),
    names_on_work="school and grade",
    afterwards="The packets are given away with seeds, one to a visitor",
    if_late="Whoever is late calls the other within the week, and both agree on a new day",
    approved_by="Maria Ortega",
    approved_on=date(2027, 2, 16),
)
LONG_TEXT = "Ngôi trường nhỏ 🎨 <b>Müller</b> & Søn: {0}, đặng thị hương, và nhiều thứ khác trong một dòng dài. " * 3
LONG_MEMO = replace(
    MEMO,
    letterhead=LONG_SCHOOL,
    school=LONG_SCHOOL.school[:80],
    teacher=LONG_PERSON,
    partner=LONG_NAME,
    contact=LONG_PERSON,
    make=Part(Item(LONG_TEXT[:120], 2500, kind=LONG_TEXT[:80], at_most=3000), date(2027, 9, 29), LONG_PERSON[:80]),
    plain=Part(Item(LONG_TEXT[:160], 3300), date(2027, 9, 22), LONG_PERSON[:80]),
    gives=tuple(Part(Item(LONG_TEXT[:160], 12000), date(2027, 9, 29), LONG_PERSON[:80]) for _number in range(6)),
    materials=LONG_TEXT[:160],
    names_on_work=LONG_TEXT[:160],
    afterwards=LONG_TEXT[:160],
    if_late=LONG_TEXT[:200],
    more=LONG_TEXT[:200],
    approved_by=LONG_PERSON,
    version=3,
    replaces=date(2027, 9, 15),
)

CLASS = ClassPart(
    label="3-Birch",
    school="Millrace Elementary",
    grade="grade 3",
    share=24,
    children=22,
    lessons=(date(2027, 3, 9), date(2027, 3, 16), date(2027, 3, 23)),
    done=4,
    spoiled=1,
    plain=27,
)
PLAN = class_plan.Facts(
    language="en",
    paper="letter",
    day=date(2027, 2, 16),
    what="decorated seed packets",
    partner="Riverbend Garden Center",
    due=date(2027, 4, 16),
    classes=(CLASS, replace(CLASS, label="K-Ash", share=9, done=0, spoiled=0, plain=10, fits=False, lessons=())),
    size="4 by 5 inches",
    minutes=20,
    materials="pencil, watercolor, waterproof pen",
    names_on_work="school and grade",
    teacher="June Castellanos",
)


def many_classes(count: int = 48) -> tuple[ClassPart, ...]:
    """Classes of three schools, with a share each and weeks that begin one after another."""
    schools = ("Millrace Elementary", "North Ridge Elementary", LONG_SCHOOL.school)
    third = -(-count // 3)
    return tuple(
        replace(
            CLASS,
            label=f"{number % 6}-Ngôi sao & <i>{number}</i>",
            school=schools[number // third],
            share=1 + number * 7 % 40,
            done=0,
            lessons=tuple(
                date(2027, 2, 22) + timedelta(days=number % 40, weeks=week) for week in range(1 + number % 3)
            ),
        )
        for number in range(count)
    )


LONG_PLAN = replace(
    PLAN,
    what=LONG_TEXT[:120],
    partner=LONG_NAME,
    size=LONG_TEXT[:80],
    materials=LONG_TEXT[:160],
    names_on_work=LONG_TEXT[:160],
    classes=(
        replace(CLASS, label=LONG_TEXT[:40], school=LONG_SCHOOL.school, share=150, done=0, plain=165),
        replace(CLASS, label="W" * 40, share=2500, lessons=tuple(date(2027, 3, day) for day in range(1, 31))),
    ),
)
RECEIPT = trade_receipt.Facts(
    language="en",
    paper="letter",
    letterhead=SCHOOL,
    day=date(2027, 3, 5),
    item=Item("plain seed packets", 200),
    giver="Riverbend Garden Center",
    taker="Millrace Elementary",
    trade="decorated seed packets",
    agreed=Item("plain seed packets", 330),
    so_far=200,
    carrier="Dana Whitlock",
)
LONG_RECEIPT = replace(
    RECEIPT,
    letterhead=LONG_SCHOOL,
    item=Item(LONG_TEXT[:160], 12000),
    agreed=Item(LONG_TEXT[:160], 250000, at_most=300000),
    so_far=12000,
    giver=LONG_NAME,
    taker=LONG_SCHOOL.school,
    trade=LONG_TEXT[:120],
    carrier=LONG_PERSON,
)
