"""What a partner says of itself, laid beside what another row of it says: whose word counts for what. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from partners.ground.names import name_key

KEPT, OTHER, BOTH = "kept", "other", "both"
# What stands or falls together. Everything a partner says of itself is in exactly one; a test compares.
PARTS: dict[str, tuple[str, ...]] = {
    "name": ("name",),
    "kind": ("kind", "business_kind", "branch"),
    "address": ("street", "city", "state", "postal_code"),
    "phone": ("phone",),
    "email": ("email",),
    "web": ("web",),
    "best_time": ("best_time",),
    "lead_days": ("lead_days",),
    "giving": ("how_often", "counted_per", "fiscal_year_starts"),
    "decides": ("decides",),
    "wants": ("wants",),
    "rest": ("rest_until", "rest_why"),
    "never_ask": ("never_ask",),
    "may_name": ("may_name", "may_name_asked_on"),
    "notes": ("notes",),
}
# Where this says nothing the part says nothing: a branch or a month says nothing alone.
SAYS = {
    "kind": ("business_kind",), "giving": ("how_often",), "rest": ("rest_until",), "may_name": ("may_name",),
}  # fmt: skip
# The answer that binds us more, from the least to the most.
BINDING = ("", "yes", "school_only", "no")
MOST_NAMES = 600

Values = Mapping[str, Any]


def differing(kept: Values, other: Values) -> list[str]:
    """The parts in which the two do not say the same, in order."""
    return [part for part, names in PARTS.items() if any(kept[name] != other[name] for name in names)]


def proposed(part: str, kept: Values, other: Values) -> str:
    """Whose word should count unless somebody says otherwise: whoever says anything, and what binds us more."""
    if part == "notes" and kept["notes"] and other["notes"]:
        return BOTH
    if not says(part, other):
        return KEPT
    if not says(part, kept):
        return OTHER
    if part == "may_name":
        return OTHER if BINDING.index(other["may_name"]) > BINDING.index(kept["may_name"]) else KEPT
    if part == "rest":
        return OTHER if other["rest_until"] > kept["rest_until"] else KEPT
    return KEPT


def says(part: str, values: Values) -> bool:
    return any(values[name] not in ("", None, False) for name in SAYS.get(part, PARTS[part]))


def put_together(kept: Values, other: Values, choices: Mapping[str, str]) -> dict[str, Any]:
    """The new values of the row that is kept. `choices`: KEPT, OTHER or (of notes) BOTH for each part that differs."""
    values: dict[str, Any] = {}
    for part in differing(kept, other):
        choice = choices.get(part) or proposed(part, kept, other)
        if choice == BOTH:
            values["notes"] = f"{kept['notes']}\n\n{other['notes']}"
        elif choice == OTHER:
            values |= {name: other[name] for name in PARTS[part]}
    return values


def all_names(now: str, names: Iterable[str], between: str = "; ") -> str:
    """Every name but the one it has now, each once; as many whole names as there is room for."""
    seen, found = {name_key(now)}, ""
    for name in names:
        longer = f"{found}{between}{name}" if found else name
        if name and name_key(name) not in seen and len(longer) <= MOST_NAMES:
            seen.add(name_key(name))
            found = longer
    return found


def fitting_details(kept: Values, other: Values, names: Iterable[str]) -> dict[str, Any] | None:
    """What the one row of a person lacks and the other has; None where the two say different things."""
    lacking: dict[str, Any] = {}
    for name in names:
        if other[name] in ("", None, False) or kept[name] == other[name]:
            continue
        if kept[name] not in ("", None, False):
            return None
        lacking[name] = other[name]
    return lacking
