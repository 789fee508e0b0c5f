"""Whether what happened to a row since an event was all taken back again."""

from __future__ import annotations

from partners.ground.models import Event

# An undo reads at most so many later events; older changes are put right by hand.
LATER = 1000


def changed_since(event: Event) -> set[tuple[str, int]] | None:
    """The rows, by model and number, that an event after this one touched and that was not undone.

    All others stand as `event` left them. None where too much happened since then to tell.
    """
    numbers = standing_since(event)
    if numbers is None:
        return None
    touched: set[tuple[str, int]] = set()
    for number in numbers:
        touched |= rows_of(number)
    return touched


def stands_on(event: Event) -> Event | None:
    """The latest change that touched a row of this one and was not undone; None where too many came since."""
    own = rows_of(event.pk)
    number = next((one for one in standing_since(event) or () if rows_of(one) & own), None)
    return Event.objects.defer("changes").select_related("by").get(pk=number) if number is not None else None


def rows_of(number: int) -> set[tuple[str, int]]:
    # One event may hold twenty thousand rows: one at a time.
    changes = Event.objects.values_list("changes", flat=True).get(pk=number)
    return {(item["model"], item["pk"]) for item in changes}


def standing_since(event: Event) -> list[int] | None:
    """The changes after this one that hold, the latest first; None where there are too many to tell.

    An undo that was itself undone counts for nothing: what it took back holds again.
    """
    found = Event.objects.filter(program=event.program_id, pk__gt=event.pk).order_by("-pk")
    later = list(found.values_list("pk", "undoes_id")[: LATER + 1])
    if len(later) > LATER:
        return None
    holds: dict[int, bool] = {}
    undone: set[int] = set()
    # The latest first: an undo comes after what it takes back.
    for number, undoes in later:
        holds[number] = number not in undone
        if undoes is not None and holds[number]:
            undone.add(undoes)
    return [number for number, undoes in later if holds[number] and undoes not in holds]
