"""The projects that the demo book shares with a colleague: classes, parts, needs, and pictures that are drawn here."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import Any

from PIL import Image, ImageDraw

from partners.config.demo_trades import Days
from partners.ground.pictures import made_anew
from partners.program.desk import Desk
from partners.program.file_actions import attach
from partners.school import project_actions as projects
from partners.school.project_models import Project
from partners.wish_list.actions import add_need

INK, LAND, WATER, LEAF = "#2b2b3a", "#efe6cf", "#4f86a8", "#6b8f4e"


def share_projects(book: Days, desk: Desk, told: list[dict[str, Any]]) -> None:
    for one in told:
        values = dict(one)
        key, lists = values.pop("key"), {name: values.pop(name, []) for name in ("parts", "needs", "pictures")}
        labels, invited_ago = values.pop("classes"), values.pop("invited_ago")
        school, colleague = book.keyed[values.pop("school")], book.keyed[values.pop("colleague")]
        days: dict[str, Any] = {
            f"{name}_on": book.day(values.pop(f"{name}_in")) for name in ("begins", "ends", "shown")
        }
        before = replace(desk, day=book.day(-invited_ago))
        project = projects.add_project(desk=before, school=school, colleague=colleague, **values, **days)
        book.keyed[key] = project
        projects.choose_classes(desk=before, project=project, classes=school.classes.filter(label__in=labels))
        projects.invited(desk=before, project=project, day=before.day)
        for part in lists["parts"]:
            add_part(book, before, project, dict(part))
        for need in lists["needs"]:
            day = book.school_day(need["needed_in"])
            own = {name: value for name, value in need.items() if name != "needed_in"}
            add_need(desk=desk, project=project, school=school, needed_by=day, **own)
        for place, picture in enumerate(lists["pictures"]):
            shown = {"title": picture["title"], "shows_no_child": picture["ticked"]}
            attach(desk=desk, sent=made_anew(drawn(place)), project=project, **shown)


def add_part(book: Days, desk: Desk, project: Project, told: dict[str, Any]) -> None:
    done_ago = told.pop("done_ago", None)
    part = projects.add_part(desk=desk, project=project, due=book.school_day(told.pop("due_in")), **told)
    if done_ago is not None:
        day = book.day(-done_ago)
        projects.part_done(desk=replace(desk, day=day), part=part, day=day)


def drawn(place: int) -> bytes:
    """A map of a river with trees, or a detail of it, as a child's brush would have it."""
    picture = Image.new("RGB", (900, 600), LAND)
    pen = ImageDraw.Draw(picture)
    river = [(x, 300 + 90 * ((x // 150 + place) % 2) - 45) for x in range(-150, 1200, 150)]
    pen.line(river, fill=WATER, width=70 + 60 * place, joint="curve")
    for tree in range(14):
        x, y = 40 + tree * 137 % 840, 40 + tree * 211 % 520
        pen.ellipse((x, y, x + 46, y + 46), fill=LEAF, outline=INK, width=4)
    pen.rectangle((12, 12, 887, 587), outline=INK, width=6)
    file = BytesIO()
    picture.save(file, "PNG")
    return file.getvalue()
