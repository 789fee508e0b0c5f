"""Adds the program of a copy to a book that may hold others: its rows get new numbers, and so does its history."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from django.apps import apps
from django.db import transaction

from partners.copies.form import BROKEN, Unreadable
from partners.copies.putting import go_on_after, put
from partners.copies.snapshot import last_number, rows_of
from partners.copies.tables import models_at, newest_step
from partners.copies.writing import NOT_HANDED_ON
from partners.directory.models import FormerPartner, Partner
from partners.ground.models import Event, Touched
from partners.program.actions import free_username, made_password, make_user
from partners.program.models import Membership, Program, Role, User

Cell = Callable[[Any], Any]
# Where SQLite laid a table anew it forgot the numbers of rows that were gone; further than this nobody's history goes.
BEYOND = 1_000_000
# Columns that hold a row's number without referring to the row, which may be gone.
NUMBERS = {("formerpartner", "was"): "partner"}
# Columns that name a kind of row and hold the number of one.
NAMING = {Event: ("about_model", "about_pk"), Touched: ("model", "row")}


@dataclass
class Joined:
    """The program as it now stands, and how its people sign in: name and password, or None where they could before."""

    program: Program
    people: list[tuple[str, str | None]] = field(default_factory=list)


def join(source: Any, target: Any, *, same_people: bool = False, keeper: str = "") -> Joined:
    """`source` holds one program, brought forward to today's tables; `target` stands as the site's own book.

    People come as new ones with a new name where theirs is taken; with `same_people`, who has the name is taken for
    the same. `keeper` is who keeps a book that brings no members. All or nothing.
    """
    with transaction.atomic():
        moved = _Moved(source, target, same_people)
        # Who writes meanwhile gets numbers beyond those that are brought.
        moved.keep_numbers()
        moved.bring_people()
        for model in models_at(newest_step()):
            if model is not User and model._meta.model_name not in NOT_HANDED_ON:
                moved.bring(model)
        moved.keep_numbers()
        program = Program.objects.get(pk=moved.program)
        people = moved.people
        if not program.memberships.exists():
            people = [*people, _keeper(program, keeper or program.teacher)]
        target.check_constraints()
    return Joined(program, people)


def _keeper(program: Program, name: str) -> tuple[str, str | None]:
    user, password = make_user(name)
    Membership.objects.create(program=program, user=user, role=Role.KEEPER)
    return user.username, password


class _Moved:
    """Row n of the copy is row n + `further` of the book, for each kind; nobody who was removed gives a number away."""

    def __init__(self, source: Any, target: Any, same_people: bool) -> None:
        self.source, self.target, self.same_people = source, target, same_people
        kinds = [model for model in apps.get_app_config("partners").get_models() if model is not User]
        self.further = {model: last_number(target, model._meta.db_table) for model in kinds}
        self.last = {model: last_number(source, model._meta.db_table) for model in kinds}
        self.seen: dict[Any, int] = {}
        self.named = {str(model._meta.model_name): model for model in kinds}
        self.users: dict[int, int] = {}
        self.people: list[tuple[str, str | None]] = []
        ((number,),) = rows_of(source, Program._meta.db_table, ["id"])
        self.program = number + self.further[Program]

    def bring_people(self) -> None:
        columns = ["id", "username", "first_name", "last_name", "email"]
        members = {number for (number,) in rows_of(self.source, Membership._meta.db_table, ["user_id"])}
        for number, *told in rows_of(self.source, User._meta.db_table, columns):
            username, first, last, email = told
            taken = User.objects.filter(username=username).first()
            if taken is None or not self.same_people:
                taken = User(first_name=first, last_name=last, email=email, is_active=number in members)
                taken.username = free_username(username)
                password = made_password() if number in members else None
                taken.set_password(password)
                taken.save()
                if password:
                    self.people.append((taken.username, password))
            elif number in members:
                self.people.append((username, None))
            self.users[number] = taken.pk

    def bring(self, model: Any) -> None:
        fields = model._meta.concrete_fields
        columns, table = [str(column.column) for column in fields], model._meta.db_table
        cells = [self.cell(model, column) for column in fields]
        put(self.target, table, columns, self.changed(model, columns, cells))

    def keep_numbers(self) -> None:
        for model, last in self.last.items():
            go_on_after(self.target, model._meta.db_table, max(last, self.seen.get(model, 0)) + self.further[model])

    def changed(self, model: Any, columns: list[str], cells: list[Cell | None]) -> Iterator[list[Any]]:
        about = [columns.index(name) for name in NAMING.get(model, ())]
        for row in rows_of(self.source, model._meta.db_table, columns):
            moved = [cell(value) if cell else value for cell, value in zip(cells, row, strict=True)]
            if about and row[about[1]] is not None:
                moved[about[1]] += self.further[self.named[row[about[0]]]] if row[about[0]] in self.named else 0
            yield moved

    def cell(self, model: Any, column: Any) -> Cell | None:
        """How a cell of this column changes on the way, or None where it stays."""
        if column.related_model is User:
            return self.users.get
        kind = self.numbered(model, column)
        if kind is not None:
            further = self.further[kind]
            return lambda value: None if value is None else value + further
        if model is Event and column.name == "changes":
            return self.history
        if model is FormerPartner and column.name == "was":
            return lambda value: value + self.further[Partner]
        if model is Membership and column.name == "school_ids":
            return lambda text: json.dumps([number + self.further[self.named["school"]] for number in json.loads(text)])
        return None

    def numbered(self, model: Any, column: Any) -> Any:
        """The kind of row whose number stands in this column, or None."""
        if column.primary_key:
            return model
        kind = column.related_model or self.named.get(NUMBERS.get((model._meta.model_name, column.name), ""))
        return kind if kind in self.further else None

    def history(self, text: str) -> str:
        """What an event keeps of rows names them by number, in the same columns."""
        changes = json.loads(text)
        for one in changes:
            model = self.named.get(one["model"])
            if model is None:
                continue
            self.see(model, one["pk"])
            one["pk"] += self.further[model]
            for values in filter(None, (one["before"], one["after"])):
                self.renumber(model, values)
        return json.dumps(changes)

    def see(self, model: Any, number: int) -> None:
        """A number in the history is later a row of this program or of none: nobody else is given it.

        Else a copy that was made up could have its history undone on another program's rows. Raises Unreadable.
        """
        if not 0 < number <= self.last[model] + BEYOND:
            raise Unreadable(BROKEN)
        self.seen[model] = max(number, self.seen.get(model, 0))

    def renumber(self, model: Any, values: dict[str, Any]) -> None:
        for column in model._meta.concrete_fields:
            value = values.get(column.attname)
            if value is None:
                continue
            if column.name == "program":
                values[column.attname] = self.program
            elif column.related_model is User:
                values[column.attname] = self.users.get(value)
            elif (kind := self.numbered(model, column)) is not None:
                values[column.attname] = value + self.further[kind]
            elif column.name == "was":
                values[column.attname] = value + self.further[Partner]
            elif column.name == "school_ids":
                values[column.attname] = [number + self.further[self.named["school"]] for number in value]
