"""Facts for the sheets of the year, all of invented Alder Falls."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from outreach.documents import talk_card
from outreach.wording.year_facts import BOARD, PARTNERS, Facts, Research, Worth
from tests.outreach.sheets import LONG_NAME, LONG_PERSON, LONG_SCHOOL, SCHOOL

YEAR = Facts(
    language="en",
    paper="letter",
    letterhead=SCHOOL,
    day=date(2027, 6, 9),
    year="2026–27",
    first=date(2026, 7, 1),
    last=date(2027, 6, 30),
    teacher="June Castellanos",
    role="Art teacher",
    students=604,
    classes=26,
    gifts=(("goods", 23), ("money", 2), ("space", 1)),
    families=4,
    trades=3,
    trades_kept=2,
    trades_open=1,
    promised=(21, 9),
    kept=(17, 9),
    helpers=14,
    minutes=6150,
    grants_asked=2,
    grants_asked_cents=120_000,
    grants_awarded=1,
    grants_awarded_cents=50_000,
    grants_spent_cents=43_210,
    thanks_owed=38,
    thanks_said=36,
    thanks_days=Decimal("2.5"),
    gave_before=19,
    gave_again=13,
    months=(
        (2, 0, 6, 9, 4, 0, 5, 3, 2, 1, 0, 0),
        (1, 0, 3, 5, 4, 2, 3, 2, 1, 3, 2, 0),
        (1, 0, 2, 6, 5, 1, 4, 3, 2, 4, 8, 0),
    ),
    became=(
        "Forty planters stand on Main Street, one from each table of grade 3",
        "The library windows show 120 paper birds until August",
    ),
    needs=("terracotta pots (4 inch)", "mat-board offcuts", "a helper who sews"),
    names=("Bluebird Bakery", "Marigold Framing", "Riverbend Garden Center"),
    others=11,
)
HOUSTON = Research(
    sentence="In a randomized trial in 42 schools, adding arts experiences lowered discipline infractions.",
    source="Bowen and Kisida, Houston",
    year=2019,
    kind="experiment",
    limits="One city, averages over many schools.",
)
WORTH = Worth(cents=325_950, each_cents=3_180, year=2022, source="Independent Sector, Value of Volunteer Time")
FULL = replace(YEAR, research=HOUSTON, worth=WORTH, pocket_cents=12_345, readers=BOARD)
FOR_PARTNERS = replace(FULL, readers=PARTNERS, needs=())
LONG = replace(
    FULL,
    letterhead=LONG_SCHOOL,
    teacher=LONG_PERSON,
    gifts=tuple((form, 1_234) for form in ("goods", "money", "service", "space", "discount", "loan")),
    became=tuple(
        f"{LONG_NAME} gave what {number} classes made into a wall of weaving in the front hall" for number in range(4)
    ),
    needs=(LONG_NAME, LONG_NAME, LONG_NAME),
    names=tuple(f"{LONG_NAME} {number}" for number in range(12)),
    months=tuple(tuple(range(90, 102)) for _row in range(3)),
)
BARE = Facts("en", "letter", SCHOOL, date(2027, 6, 9), "2026–27", date(2026, 7, 1), date(2027, 6, 30))
CARD = talk_card.Facts(year=replace(YEAR, names=(), others=0))
