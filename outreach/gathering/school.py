"""What every sheet says of the school and the program."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django.db.models import Max, Min, Sum

from outreach.gathering.remembered import remembered
from outreach.page import Letterhead, Picture, PictureRefused, open_picture
from outreach.wording.counts import joined
from partners.program.desk import Desk
from partners.program.letter_pictures import letterhead_bytes, signature_bytes
from partners.school.approval_models import ApprovalFor
from partners.school.models import School

GRADES = {
    "en": {-1: "pre-kindergarten", 0: "kindergarten", "grade": "grade {n}", "span": "{first} to {last}"},
    "es": {-1: "prekínder", 0: "kínder", "grade": "grado {n}", "span": "de {first} a {last}"},
}


MOST_NAMED = 5


def of_all_schools(desk: Desk) -> Letterhead:
    """Of a sheet that speaks for several schools: the program's name over theirs. Its phone stands with the teacher."""
    names = tuple(school.name for school in all_schools(desk))
    return replace(letterhead(None, desk), address=names if len(names) <= MOST_NAMED else (), phone="")


def letterhead(school: School | None, desk: Desk) -> Letterhead:
    """The school's own; before a school is known, the program's name stands there."""
    logo, alone = letterhead_picture(desk, school)
    if school is None:
        return Letterhead(school=desk.program.name, phone=desk.program.phone, logo=logo, alone=alone)
    # As one reads it: the capitals of the post are for the address a letter goes to.
    town = ", ".join(part for part in (school.city, school.state) if part)
    last = " ".join(part for part in (town, school.postal_code) if part)
    address = tuple(line for line in (school.street, last) if line)
    return Letterhead(school=school.name, address=address, phone=school.phone, logo=logo, alone=alone)


@remembered
def letterhead_picture(desk: Desk, school: School | None) -> tuple[Picture | None, bool]:
    """The picture at the head of letters and whether it stands alone. A run of letters opens it once."""
    found = letterhead_bytes(desk, school)
    return (opened(found[0]), found[1]) if found else (None, False)


@remembered
def signature_picture(desk: Desk, name: str) -> Picture | None:
    """The signature of the person whose name stands under a letter, where it is that person's."""
    found = signature_bytes(desk, name)
    return opened(found, inked=True) if found else None


def opened(data: bytes, *, inked: bool = False) -> Picture | None:
    """A kept picture without its margins; a letter goes out without one that cannot be read any more."""
    try:
        return open_picture(data, trimmed=True, inked=inked)
    except PictureRefused:
        return None


@remembered
def only_school(desk: Desk) -> School | None:
    """The school that is meant when nobody says which: the only one, else the first."""
    first: School | None = desk.schools.first()
    return first


@remembered
def school_meant(desk: Desk) -> School | None:
    """The only school; of several none is meant, and a letter speaks for the program."""
    schools = list(desk.schools[:2])
    return schools[0] if len(schools) == 1 else None


@remembered
def legal_name(desk: Desk) -> str:
    """To whom a gift to no school in particular belongs by law, where that is the same for all schools."""
    names = set(desk.schools.values_list("legal_name", flat=True))
    return names.pop() if len(names) == 1 else ""


@remembered
def tax_line(desk: Desk) -> str:
    """The district's sentence about taxes, where it is the same for all schools."""
    lines = {school.tax_line for school in all_schools(desk)}
    return lines.pop() if len(lines) == 1 else ""


@remembered
def tax_number(desk: Desk) -> str:
    """The district's number, where it is the same for all schools."""
    numbers = set(desk.schools.values_list("ein", flat=True))
    return numbers.pop() if len(numbers) == 1 else ""


@remembered
def taught(desk: Desk, school: School | None, language: str) -> dict[str, Any]:
    """`students` and `grades` of the school, or of the whole program; only counted, never listed."""
    classes = desk.classes.with_students()
    classes = classes.filter(school=school) if school else classes
    found = classes.aggregate(students=Sum("students"), first=Min("grade"), last=Max("grade"))
    return {"students": found["students"], "grades": grades(found["first"], found["last"], language)}


def grades(first: int | None, last: int | None, language: str) -> str:
    """
    >>> grades(0, 5, "en"), grades(3, 3, "en"), grades(None, None, "en")
    ('kindergarten to grade 5', 'grade 3', '')
    """
    if first is None or last is None:
        return ""
    words = GRADES[language]
    one, other = (words.get(n) or words["grade"].format(n=n) for n in (first, last))
    return one if one == other else words["span"].format(first=one, last=other)


@remembered
def all_schools(desk: Desk) -> tuple[School, ...]:
    return tuple(desk.schools)


@remembered
def approval(desk: Desk, school: School | None, language: str) -> dict[str, Any]:
    """Who said yes to asking, at the school or at all of them together, and which schools still lack a yes.

    Where not one person said it for all, each stands with the school whose yes it is.
    """
    schools = (school,) if school is not None else all_schools(desk)
    found = {one: one.approvals.valid_on(desk.day, ApprovalFor.ASKING).first() for one in schools}
    held = {one: valid for one, valid in found.items() if valid is not None}
    by, days = {valid.by for valid in held.values()}, {valid.on for valid in held.values()}
    alone = len(by) == 1 and len(held) == len(schools)
    named = by if alone else [f"{valid.by} ({one.name})" for one, valid in held.items()]
    return {
        "approved_by": joined(list(named), language),
        "approved_on": days.pop() if len(days) == 1 else None,
        "unapproved": tuple(one.name for one in schools if one not in held) if held else (),
    }
