"""Whether what happened to a row since an event was all taken back again."""

from __future__ import annotations

from partners.ground.models import Event

# An undo reads at most so many later events; older changes are put right by hand.
LATER = 1000


def changed_since(event: Event) -> set[tuple[str, int]] | None:
    """The rows, by model and number, that an event after this one touched and that was not undone.

    All others stand as `event` left them. An undo that was itself undone counts for nothing: what it took back holds
    again. None where too much happened since then to tell.
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
    standing = [number for number, undoes in later if holds[number] and undoes not in holds]
    touched: set[tuple[str, int]] = set()
    # One event may hold twenty thousand rows: one at a time.
    for number in standing:
        changes = Event.objects.values_list("changes", flat=True).get(pk=number)
        touched |= {(item["model"], item["pk"]) for item in changes}
    return touched
