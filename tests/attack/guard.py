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


CHAPTERS = {
    "1": "Encoding", "2": "Validation", "3": "Browser", "4": "Requests", "5": "Files", "6": "Signing in",
    "7": "Sessions", "8": "Rights", "9": "Tokens", "11": "Hashes", "12": "TLS", "13": "Settings", "14": "Caches",
    "15": "Code", "16": "Logs, errors",
}  # fmt: skip


def of_chapters() -> list[str]:
    """The rows of the table in DEVELOPERS.md: the guards by the chapter of their first section."""
    rows: dict[str, list[str]] = {}
    for one in sorted(GUARDS, key=lambda guard: (float(guard.asvs.split(", ")[0]), guard.name)):
        rows.setdefault(one.asvs.split(".")[0], []).append(f"{one.name} ({one.asvs})")
    return [f"| V{chapter} {CHAPTERS[chapter]} | {' · '.join(names)} |" for chapter, names in rows.items()]
