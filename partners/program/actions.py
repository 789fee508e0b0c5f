"""Setting up a program and saying who keeps it."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from datetime import date
from typing import Any

from django.db import transaction
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.ground.plain import PlainError
from partners.program.desk import Desk
from partners.program.models import Membership, Program, Role, User

NO_KEEPER = gettext_noop("Somebody must keep the book: make another member keeper first.")


class NoKeeper(PlainError):
    """Nobody would keep the book."""


# Letters that are not mistaken for one another when a password is copied from paper.
PLAIN_SIGNS = "abcdefghjkmnpqrstuvwxyz23456789"


def made_password() -> str:
    """Three groups of five signs, about 74 bits: meant to be written down once and typed."""
    return "-".join("".join(secrets.choice(PLAIN_SIGNS) for _i in range(5)) for _group in range(3))


def free_username(name: str) -> str:
    """The first name in plain letters, with a number where it is taken; "Dr." is no name."""
    names = [word for word in name.split() if len(word) > 1 and not word.endswith(".")] or [name]
    wanted = slugify(names[0]).split("-")[0] or "teacher"
    taken = set(User.objects.filter(username__startswith=wanted).values_list("username", flat=True))
    return next(n for n in (wanted, *(f"{wanted}{i}" for i in range(2, len(taken) + 3))) if n not in taken)


def named(name: str) -> tuple[str, str]:
    """A name in the two columns that Django keeps it in."""
    first, _space, last = name.strip().partition(" ")
    return first[:150], last[:150]


def make_user(name: str) -> tuple[User, str]:
    """Somebody new who can sign in, with the password made for them."""
    password = made_password()
    first, last = named(name)
    user = User(username=free_username(name), first_name=first, last_name=last)
    user.set_password(password)
    user.save()
    return user, password


@transaction.atomic
def set_up(*, name: str, program_name: str, day: date) -> tuple[Desk, str]:
    """The first program of an empty book, kept by its teacher. Returns the keeper's desk and password."""
    user, password = make_user(name)
    program = Program.objects.create(name=program_name or _("Art program"), teacher=name)
    desk = Desk(program=program, day=day, user=user)
    with change(desk, gettext_noop("Book begun by %(name)s"), name=name) as book:
        book.add(Membership(user=user, role=Role.KEEPER))
    return desk, password


def edit_program(*, desk: Desk, seen: int | None = None, **values: Any) -> Program:
    with change(desk, gettext_noop("Settings of the program changed")) as book:
        return book.update(desk.program, seen=seen, **values)


def add_member(
    *, desk: Desk, name: str, role: str, opened: Sequence[str] = (), school_ids: Sequence[int] = (), **signs: str
) -> Membership:
    """A colleague of the demo book, who cannot sign in until somebody gives them a password."""
    with change(desk, gettext_noop("%(name)s may now use this book"), name=name) as book:
        user, _password = make_user(name)
        return book.add(Membership(user=user, role=role, opened=list(opened), school_ids=list(school_ids), **signs))


def edit_member(*, desk: Desk, member: Membership, seen: int | None = None, **values: Any) -> Membership:
    """Raises NoKeeper where nobody would keep the book any more."""
    with change(desk, gettext_noop("Rights of %(member)s changed"), member=member.user) as book:
        book.update(member, seen=seen, **values)
        stay_kept(desk)
        return member


def sign_letters(*, desk: Desk, member: Membership, seen: int | None = None, **values: Any) -> Membership:
    """Another name, title, phone or e-mail under what a member prints."""
    with change(desk, gettext_noop("How %(member)s signs letters changed"), member=member.user) as book:
        return book.update(member, seen=seen, **values)


def remove_member(*, desk: Desk, member: Membership) -> None:
    """Raises NoKeeper where nobody would keep the book any more."""
    with change(desk, gettext_noop("%(member)s may no longer use this book"), member=member.user) as book:
        book.remove(member)
        stay_kept(desk)


def stay_kept(desk: Desk) -> None:
    """Two keepers may take each other out at once: the program's row is held while the rest is counted."""
    Program.objects.select_for_update().get(pk=desk.program.pk)
    if not Membership.objects.filter(program=desk.program, role=Role.KEEPER).exists():
        raise NoKeeper("no_keeper", NO_KEEPER)


def renew_calendar(*, desk: Desk, member: Membership) -> Membership:
    """A new secret calendar address; the one before leads nowhere.

    Its turn follows the row's version, which only grows: no address that was given up is ever made again. Odd turns
    have an address, even ones none.
    """
    with change(desk, gettext_noop("New calendar address for %(member)s"), member=member.user) as book:
        return book.update(member, calendar_turn=2 * member.version + 1)


def calendar_off(*, desk: Desk, member: Membership) -> Membership:
    """No calendar address any more, until a new one is made."""
    with change(desk, gettext_noop("Calendar address of %(member)s ended"), member=member.user) as book:
        return book.update(member, calendar_turn=2 * member.version)
