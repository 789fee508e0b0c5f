"""A guard of the site: what holds because of it, and how it would be if somebody took it away."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.program.desk import Desk
from partners.program.models import Membership
from tests import people
from tests.ladder import enter
from tests.rows import make_book

OWN, FOREIGN = 5_000_001, 7_000_001


@dataclass
class Site:
    """June's program with a row of every kind, and Otto's; `settings` are Django's, put back afterwards."""

    june: Membership
    grace: Membership
    otto: Membership
    settings: Any
    patch: pytest.MonkeyPatch

    def browser(self, member: Membership | None = None, **values: Any) -> Client:
        client = Client(**values)
        return enter(client, member) if member else client

    @property
    def desk(self) -> Desk:
        return people.make_desk(self.june.program, user=self.june.user)

    def book(self, **given: Any) -> None:
        """A row of every kind in both programs."""
        make_book(self.june.program, OWN, "Ours ", **given)
        make_book(self.otto.program, FOREIGN, "Ottosecret ")

    def quick_passwords(self) -> None:
        """Everybody's password is `people.SECRET`, stored in a way that takes no time."""
        self.settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
        for member in (self.june, self.grace, self.otto):
            member.user.set_password(people.SECRET)
            member.user.save()

    def sign_in(self, client: Client, name: str, password: str = people.SECRET, **more: Any) -> Any:
        return client.post(reverse("program:sign-in"), {"username": name, "password": password}, **more)


@dataclass(frozen=True)
class Guard:
    """`asvs` are the sections of OWASP ASVS 5.0 it answers (numbers from memory)."""

    name: str
    asvs: str
    holds: Callable[[Site], None]
    without: Callable[[Site], None]


GUARDS: list[Guard] = []


def guard(name: str, asvs: str, without: Callable[[Site], None]) -> Callable[[Callable[[Site], None]], None]:
    def keep(holds: Callable[[Site], None]) -> None:
        GUARDS.append(Guard(name, asvs, holds, without))

    return keep


def patched(target: str, value: Any) -> Callable[[Site], None]:
    return lambda site: site.patch.setattr(target, value)


def set_to(**values: Any) -> Callable[[Site], None]:
    def change(site: Site) -> None:
        for name, value in values.items():
            setattr(site.settings, name, value)

    return change
