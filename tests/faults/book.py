"""A small book for writers who are disturbed, and who of them is signed in already."""

from __future__ import annotations

import json
from datetime import timedelta
from typing import Any

from django.conf import settings
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.contrib.sessions.backends.db import SessionStore
from django.core.serializers.json import DjangoJSONEncoder
from django.utils import timezone

from partners.config.new_database import make_tables
from partners.directory.actions import add_partner
from partners.ground.frozen import frozen
from partners.program.desk import Desk, row_names
from partners.program.models import Program
from tests import people

TEACHERS = ("June", "Omar", "Ines", "Ruth", "Paul", "Vera")
PLACES = (
    "Riverbend Garden Center",
    "Bluebird Bakery",
    "Tamarack Hardware",
    "Marigold Framing",
    "Alder Falls Public Library",
    "Lakeside Arts Guild",
)
# What an event does not repeat for a row that was changed, and what undo counts on.
NOT_KEPT = {"updated_at", "updated_by_id", "created_at", "created_by_id"}


def make_book() -> tuple[dict[str, Any], dict[str, dict[str, Any]]]:
    """Tables and a few rows in the empty database of the settings.

    Gives the keys of sessions and the numbers of places, and how the book stood before its first event.
    """
    make_tables()
    settings.STATIC_ROOT.mkdir(parents=True, exist_ok=True)
    program = people.make_program()
    desk = Desk(program=program, day=timezone.localdate() - timedelta(days=1))
    people.make_school(program)
    sessions = [signed_in(people.make_member(program, name).user) for name in TEACHERS]
    seed = standing()
    places = [add_partner(desk=desk, name=name).pk for name in PLACES]
    return {"sessions": sessions, "places": places, "day": desk.day.isoformat()}, seed


def signed_in(user: Any) -> str:
    """The key of a session in which somebody signed in."""
    session = SessionStore()
    session[SESSION_KEY] = str(user.pk)
    session[BACKEND_SESSION_KEY] = settings.AUTHENTICATION_BACKENDS[-1]
    session[HASH_SESSION_KEY] = user.get_session_auth_hash()
    session.create()
    return str(session.session_key)


def standing() -> dict[str, dict[str, Any]]:
    """Every row of the one program by its kind and number, as an event would keep it."""
    program = Program.objects.get()
    kinds = {"program": [program]} | {
        model._meta.model_name: list(model._base_manager.filter(program=program)) for model in row_names().values()
    }
    found = {f"{kind} {row.pk}": frozen(row) for kind, rows in kinds.items() for row in rows}
    plain: dict[str, dict[str, Any]] = json.loads(json.dumps(found, cls=DjangoJSONEncoder))
    return {name: {key: value for key, value in row.items() if key not in NOT_KEPT} for name, row in plain.items()}
