"""What a form that could not be saved held, in words: nothing that was typed is lost."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from django.apps import apps
from django.http import HttpRequest
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from partners.ground.frozen import frozen
from partners.ground.models import Event, Row
from partners.ground.money import format_cents
from partners.program.desk import Desk

# Fields of a numbered line that hold what a person typed, and no number of a row.
LINE = re.compile(r"(?P<line>[a-z_]+-[0-9]+)-(what|quantity|cents|planned|shipping|question|words)")
# What a page puts into its forms by itself, and what a button says.
NOT_TYPED = {"csrfmiddlewaretoken", "once", "seen", "next", "act", "do", "line", "day_seen"}
OF_A_SECRET = re.compile("password|passphrase|token")


def beside(request: HttpRequest, stored: Any) -> dict[str, Any]:
    """What was typed beside what is stored, by the names of the fields; only where the two differ."""
    held = frozen(stored)
    fields = {f.attname: f for f in stored._meta.concrete_fields}
    desk: Desk = request.desk  # type: ignore[attr-defined]
    rows = [
        {
            "label": capfirst(str(fields[attname].verbose_name)),
            "typed": named(desk, fields[attname], request.POST[fields[attname].name]),
            "stored": named(desk, fields[attname], as_typed(attname, held[attname])),
            "phone": attname == "phone",
        }
        for attname in held
        if fields[attname].name in request.POST
    ]
    rows = [
        row
        for row in rows
        if str(row["typed"]).strip() != ("" if row["stored"] is None else str(row["stored"]).strip())
    ]
    forgotten = last_was_forgetting(stored)
    return {"rows": rows, "stored": stored, "lines": typed_lines(request), "forgotten": forgotten}


def last_was_forgetting(row: Any) -> bool:
    """Whether the newest change of the row took somebody's name out of it for good."""
    changes = Event.objects.filter(touched__model=row._meta.model_name, touched__row=row.pk)
    newest = changes.filter(program=getattr(row, "program_id", row.pk)).order_by("-at", "-id").first()
    return newest is not None and newest.is_scrubbed


def named(desk: Desk, field: Any, value: Any) -> Any:
    """A row that is chosen by its name instead of its number, where the person may see it; a choice in its words."""
    if field.choices:
        return dict(field.flatchoices).get(value, value)
    if field.get_internal_type() == "BooleanField":
        return _("yes") if value in (True, "on", "True") else _("no")
    model = field.related_model
    if model is None or not issubclass(model, Row) or not re.fullmatch(r"[0-9]{1,18}", str(value)):
        return value
    row = desk.narrowed(model._base_manager.filter(program=desk.program)).filter(pk=int(value)).first()
    return value if row is None else str(row)


def as_typed(attname: str, value: Any) -> Any:
    return format_cents(value) if attname.endswith("_cents") and isinstance(value, int) else value


def typed_lines(request: HttpRequest) -> list[str]:
    """What was typed in the numbered lines of a form, a sentence for each line."""
    lines: dict[str, list[str]] = {}
    for name, typed in request.POST.items():
        found = LINE.fullmatch(name)
        if found and str(typed).strip():
            lines.setdefault(found["line"], []).append(str(typed))
    return [" · ".join(words) for words in lines.values()]


def typed(request: HttpRequest) -> list[dict[str, Any]]:
    """What was filled in where there is no row any more to lay it beside."""
    desk: Desk = request.desk  # type: ignore[attr-defined]
    match: Any = request.resolver_match
    known = fields_by_name(str(match.url_name).rpartition("-")[0].replace("-", ""))
    found = []
    for name, values in request.POST.lists():
        written = [value.strip() for value in values if value.strip()]
        if not written or name in NOT_TYPED or "-" in name or OF_A_SECRET.search(name):
            continue
        field = known.get(name)
        label = str(field.verbose_name) if field else name.replace("_", " ")
        words = [str(named(desk, field, value)) if field else value for value in written]
        found.append({"label": capfirst(label), "typed": ", ".join(words)})
    lines = typed_lines(request)
    return [*found, *({"label": _("Line"), "typed": words} for words in lines)]


@cache
def fields_by_name(kind: str) -> dict[str, Any]:
    """What a form calls a column: that of the kind of row in its address, else some row's column of that name."""
    models = list(apps.get_app_config("partners").get_models())
    models.sort(key=lambda model: model._meta.model_name == kind)
    return {field.name: field for model in models for field in model._meta.concrete_fields}
