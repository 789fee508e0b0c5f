"""Which changes only a keeper takes back: what only a keeper may make."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from partners.ground.changes import COUNTED
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.letter_pictures import is_theirs

KEEPERS_ROWS = ("membership", "invitation", "program", "letterpicture")
# Everybody makes and ends the calendar address of their own, and says how they sign, and by which picture.
OWN = {*COUNTED, "calendar_turn", "signs_as", "title", "phone", "email"}


def may_take_back(desk: Desk, event: Event) -> bool:
    return desk.keeps or not any(item["model"] in KEEPERS_ROWS and not _is_own(desk, item) for item in event.changes)


def _is_own(desk: Desk, item: Mapping[str, Any]) -> bool:
    before, after = item["before"], item["after"]
    if item["model"] == "letterpicture":
        stood = [one for one in (before, after) if one]
        return all(is_theirs(desk, one["use"], one["name"], one["created_by_id"]) for one in stood)
    if item["model"] != "membership" or not (before and after):
        return False
    changed = {name for name in {*before, *after} if before.get(name) != after.get(name)}
    return changed <= OWN and desk.memberships.filter(pk=item["pk"], user=desk.user).exists()
