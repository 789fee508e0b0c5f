"""Which rows one school's copy holds: its own, those that belong to every school, and what all of them stand on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from django.apps import apps

from partners.copies.snapshot import rows_of
from partners.ground.models import Event, Row, Touched
from partners.program.file_models import LetterPicture, LetterUse
from partners.program.models import Invitation, Membership, Program
from partners.school.models import School

# What is part of another row goes with it, so that sums over its parts still hold.
PART_OF = {
    "attachment": ("grant", "purchase", "project", "approval", "certificate"),
    "contact": ("partner",),
    "delivery": ("promise",),
    "followup": ("ask",),
    "formerpartner": ("partner",),
    "giftline": ("gift",),
    "grantanswer": ("grant",),
    "grantchange": ("grant",),
    "grantline": ("grant",),
    "occasionday": ("occasion",),
    "outingstop": ("outing",),
    "projectclass": ("project",),
    "projectpart": ("project",),
    "promise": ("offer", "trade"),
    "purchase": ("grant",),
    "purchaseline": ("purchase",),
    "showjob": ("show",),
    "thanks": ("gift", "promise", "ask", "grant"),
    "tradeclass": ("trade",),
    "tradetally": ("trade_class",),
    "turn": ("session",),
    "visit": ("partner",),
}
# They belong to the program's every school: answers, cards, what cannot be used, own words, free days.
OF_ALL = {"readyanswer", "jobcard", "cannotuse", "wording", "occasion"}
# They tell of other schools or let somebody in.
NOT_HANDED_ON = (Event, Membership, Invitation)

Kept = dict[type[Row], set[int]]
Links = dict[str, type[Row]]
Refers = dict[str, int | None]


def standing_on(source: Any, program: Program, school: School) -> Mapping[Any, set[int]]:
    """The numbers of the rows of each kind that go with the school."""
    kinds = [model for model in apps.get_app_config("partners").get_models() if issubclass(model, Row)]
    links = {model: _links(model) for model in kinds if model not in NOT_HANDED_ON}
    rows = {model: _numbers(source, program, model, names) for model, names in links.items()}
    kept: Kept = defaultdict(set)
    kept[School].add(school.pk)
    for model, found in rows.items():
        of_all = model._meta.model_name in OF_ALL
        kept[model] |= {pk for pk, refers in found.items() if of_all or _is_of(school, refers, links[model], rows)}
    kept[LetterPicture] -= _signatures(source, program)
    while _grow(kept, rows, links):
        pass
    return {model: kept[model] if model in rows else set() for model in [*kinds, Event, Touched]}


def _signatures(source: Any, program: Program) -> set[int]:
    """Whoever takes the school over signs for themselves."""
    where, values = "WHERE program_id = %s AND use = %s", [program.pk, LetterUse.SIGNATURE.value]
    return {number for (number,) in rows_of(source, LetterPicture._meta.db_table, ["id"], where, values)}


def _links(model: type[Row]) -> Links:
    """Which kinds of row the model refers to, by the name of the column."""
    return {
        field.name: field.related_model
        for field in model._meta.concrete_fields
        if isinstance(field.related_model, type) and issubclass(field.related_model, Row)
    }


def _numbers(source: Any, program: Program, model: type[Row], links: Links) -> dict[int, Refers]:
    columns = ["id", *(f"{name}_id" for name in links)]
    found = rows_of(source, model._meta.db_table, columns, "WHERE program_id = %s", [program.pk])
    return {row[0]: dict(zip(links, row[1:], strict=True)) for row in found}


def _is_of(school: School, refers: Refers, links: Links, rows: Mapping[type[Row], Mapping[int, Refers]]) -> bool:
    """Its own, or one that names no school, unless it is about something of another school."""
    if "school" not in refers:
        return False
    if refers["school"] is not None:
        return refers["school"] == school.pk
    about = (rows[links[name]][number] for name, number in refers.items() if number is not None)
    return all(one.get("school") in (None, school.pk) for one in about)


def _grow(kept: Kept, rows: Mapping[type[Row], Mapping[int, Refers]], links: Mapping[type[Row], Links]) -> bool:
    """Adds what kept rows refer to and what is part of them; False once there is nothing more."""
    before = sum(map(len, kept.values()))
    for model, found in rows.items():
        parents = [(name, links[model][name]) for name in PART_OF.get(model._meta.model_name or "", ())]
        for number, refers in found.items():
            if number not in kept[model] and any(refers[name] in kept[target] for name, target in parents):
                kept[model].add(number)
        for number in kept[model]:
            for name, other in found[number].items():
                if other is not None:
                    kept[links[model][name]].add(other)
    return sum(map(len, kept.values())) > before
