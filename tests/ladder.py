"""The steps every view's tests climb: signed out, a guest, another program, an unknown row, the wrong method."""

from __future__ import annotations

from typing import Any

from django.test import Client

from partners.program.models import Membership

UNKNOWN = 987654


def enter(client: Client, member: Membership) -> Client:
    client.force_login(member.user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def status(client: Client, address: str, method: str = "get", **data: Any) -> int:
    return int(getattr(client, method)(address, data).status_code)


def flat(answer: Any) -> str:
    """The page with every run of blanks as one."""
    return " ".join(answer.content.decode().split())
