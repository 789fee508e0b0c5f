"""What the page "Hand over" shows: everything that stands open, each number leading to its rows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils.http import urlencode

from partners.ground.due import Words
from partners.program.desk import Desk
from partners.school.models import School
from partners.year.introduced import to_introduce
from partners.year.numbers import Number, grouped
from partners.year.open_things import OPEN, desk_of


@dataclass(frozen=True)
class Standing:
    name: Words
    number: Number
    about: Words


def handover_page(desk: Desk, school: School | None) -> dict[str, Any]:
    """One query for each kind of open things."""
    own = desk_of(desk, school)
    counted = [(kind, things, things.found(own).count()) for kind, things in OPEN.items()]
    return {
        "school": school,
        "number": school.pk if school else 0,
        "standing": [
            Standing(things.title, Number(grouped(count), address(kind, school)), things.about)
            for kind, things, count in counted
            if count
        ],
        "nothing": [things.title for _kind, things, count in counted if not count],
        "introduced": to_introduce(own).count(),
        "schools": list(desk.schools),
    }


def address(kind: str, school: School | None) -> str:
    asked = {"what": kind, **({"school": str(school.pk)} if school else {})}
    return f"{reverse('year:handover-rows')}?{urlencode(asked)}"
