"""The plan of a trade as it is asked for and sent."""

from __future__ import annotations

from typing import Any

from django.contrib.messages import get_messages
from django.test import Client
from django.urls import reverse

from partners.exchanges.models import Trade
from partners.school.models import SchoolClass
from tests.ladder import flat


def address(name: str, pk: int) -> str:
    return reverse(f"exchanges:{name}", args=[pk])


def plan_page(client: Client, trade: Trade) -> str:
    return flat(client.get(address("trade-plan", trade.pk)))


def press(client: Client, name: str, pk: int, **typed: Any) -> str:
    answer = client.post(address(name, pk), typed)
    assert answer.status_code == 302, flat(answer)
    return str(list(get_messages(answer.wsgi_request))[-1])


def ticks(*classes: SchoolClass, **more: Any) -> dict[str, Any]:
    return {f"class-{one.pk}": "on" for one in classes} | more
