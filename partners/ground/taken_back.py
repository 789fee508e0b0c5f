"""Whether what happened to a row since an event was all taken back again."""

from __future__ import annotations

from partners.ground.models import Event

# An undo reads at most so many later events; older changes are put right by hand.
LATER = 1000


def all_taken_back(event: Event, model: str, pk: int) -> bool:
    """Whether each later event that touched the row was undone, so that the row stands as `event` left it.

    An undo that was itself undone counts for nothing: what it took back holds again.
    """
    found = Event.objects.filter(program=event.program_id, pk__gt=event.pk).order_by("-pk")
    later = list(found.values_list("pk", "undoes_id", "changes")[: LATER + 1])
    if len(later) > LATER:
        return False
    holds: dict[int, bool] = {}
    undone: set[int] = set()
    # The latest first: an undo comes after what it takes back.
    for number, undoes, _changes in later:
        holds[number] = number not in undone
        if undoes is not None and holds[number]:
            undone.add(undoes)
    return not any(
        holds[number] and undoes not in holds
        for number, undoes, changes in later
        if any(item["model"] == model and item["pk"] == pk for item in changes)
    )
