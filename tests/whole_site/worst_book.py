"""A book in which everything is as long as it may be, in letters with accents, and forty of whatever can be many."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from partners.program.models import Program
from tests import people
from tests.rows import make_book, make_row

OWN, MANY = 5_000_001, 40
# Every column of words holds as much of this as it takes.
LONG = "Ñandú & Zoë’s Größe-Łódź Café (naïve), Čeština “ähnlich” Ångström Señora Núñez-Ó Conaill "
EMAIL = "maximiliana.featherstonehaugh-castellanos@alderfallsschools.example.org"


def worst_book(program: Program) -> dict[str, Any]:
    """Its rows by the name of their model; every one refers to the others wherever it can."""
    made = make_book(
        program,
        OWN,
        LONG * 5,
        Partner={"email": EMAIL, "never_ask": False},
        Contact={"email": EMAIL, "left_on": None},
        Helper={"email": EMAIL},
        SchoolClass={"students": 27, "grade": 3, "minutes": 45, "meets_on": [1, 3]},
        Session={"day": people.TUESDAY},
        Project={"students": None},
        Letter={"words": {}},
    )
    long = str(made["Gift"].place)
    forty(program, made, long)
    program.name, program.teacher, program.title = long[:120], long[:120], long[:120]
    program.email, program.phone = EMAIL, "(201) 555-0143 ext. 1234, after six"
    program.save()
    return made


def forty(program: Program, made: dict[str, Any], long: str) -> None:
    """Rows with a code of their own, so that none is lost unseen."""
    day, later = people.TUESDAY, people.TUESDAY + timedelta(days=60)
    partner, school, project = ({name.lower(): made[name]} for name in ("Partner", "School", "Project"))

    def row(kind: str, **values: Any) -> Any:
        return make_row(type(made[kind]), program, **values)

    for number in range(1, MANY + 1):
        longest = f"Q{number:02}q {long}"[:120]
        words = longest[:40]
        row("GiftLine", gift=made["Gift"], description=longest, quantity=number)
        gift = row("Gift", day=day, form="goods", place=words, **partner, **school, **project)
        row("GiftLine", gift=gift, description=words)
        room = row("SchoolClass", label=words, grade=number % 6, students=20, meets_on=[1], minutes=45, **school)
        row("TradeClass", trade=made["Trade"], school_class=room, share=number)
        row("ProjectClass", project=made["Project"], school_class=room)
        helper = row("Helper", name=words, email=EMAIL, **school)
        row("Turn", session=made["Session"], helper=helper, reply="yes", came=True, minutes=90)
        row("Need", what=words, quantity=9, **project, **school)
        side = {"side": "them" if number % 2 else "us", "part": "", "trade": None}
        row("Promise", what=words, due=later, made_on=day, **side, **partner, **school)
        row("Ask", what=words, asked_on=day, **partner, **school)
        row("GrantLine", grant=made["Grant"], what=words, position=number + 1, planned_cents=1_000)
        row("PurchaseLine", purchase=made["Purchase"], what=words, position=number + 1)
