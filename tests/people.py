"""The cast: June keeps the book of Alder Falls, Omar teaches there, Grace is a guest; Otto keeps another book."""

from __future__ import annotations

from datetime import date
from functools import cache
from typing import Any

from django.contrib.auth.hashers import make_password

from partners.directory.models import Partner
from partners.ground.names import name_key
from partners.program.desk import Desk
from partners.program.models import Membership, Program, Role, User
from partners.school.models import School

TUESDAY = date(2026, 10, 6)
SECRET = "a long enough secret"


@cache
def kept_secret() -> str:
    """What is stored of everybody's password. To work it out takes a third of a second, on purpose: it is done once."""
    return make_password(SECRET)


def make_user(name: str) -> User:
    return User.objects.create(username=name.lower(), password=kept_secret(), first_name=name)


def make_program(name: str = "Alder Falls Art", **values: Any) -> Program:
    return Program.objects.create(name=name, **{"teacher": "June Castellanos", **values})


def make_member(program: Program, name: str, role: str = Role.KEEPER, **values: Any) -> Membership:
    return Membership.objects.create(program=program, user=make_user(name), role=role, **values)


def make_desk(program: Program | None = None, day: date = TUESDAY, **values: Any) -> Desk:
    """A keeper's desk without anybody signed in, for verbs."""
    return Desk(program=program or make_program(), day=day, **values)


def make_school(program: Program, name: str = "Millrace Elementary", **values: Any) -> School:
    return School.objects.create(program=program, name=name, **values)


def make_partner(program: Program, name: str = "Riverbend Garden Center", **values: Any) -> Partner:
    return Partner.objects.create(program=program, name=name, name_key=name_key(name), **values)
