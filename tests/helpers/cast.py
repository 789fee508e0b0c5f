"""Helpers and a session for tests, written by the verbs."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from partners.helpers.actions import add_helper
from partners.helpers.models import Helper
from partners.helpers.session_actions import add_session
from partners.helpers.session_models import Session

FRIDAY = date(2026, 10, 23)


def plan(desk: Any, day: date = FRIDAY, **values: Any) -> Session:
    """Two helpers for the gym, from one to three."""
    hours = {"starts": time(13), "ends": time(15), "place": "the gym", "job": "hanging", "needed": 2}
    return add_session(desk=desk, day=day, **{**hours, **values})


def helper(desk: Any, name: str = "Rosa Delgado", **values: Any) -> Helper:
    return add_helper(desk=desk, name=name, **values)
