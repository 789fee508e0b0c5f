"""`python3 manage.py restore FILE`: the book of a copy in the place of this one, or one program more in it."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from datetime import datetime
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand
from django.db import connection, connections
from django.utils import timezone

from partners.config import readiness
from partners.config.copy_runs import one_run, opened_copy
from partners.config.hindrance import Stopped
from partners.config.new_database import is_new, make_tables
from partners.copies.form import BOOK, Contents
from partners.copies.joining import Joined, join
from partners.copies.keeping import work_folder
from partners.copies.reading import beside, contents, what_differs
from partners.copies.restoring import keep_what_is_there, place, what_is_there
from partners.copies.sealing import is_sealed
from partners.copies.standing_in import standing_in


class Command(BaseCommand):
    help = (
        "Restores a copy. One of a whole book takes the place of this book, of which a copy is kept first; one of a "
        "program or a school is added to this book."
    )
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--yes", action="store_true", help="do not ask before replacing the book that is there")
        parser.add_argument("--keeper", default="", help="who keeps a book that brings no members: first and last name")
        parser.add_argument(
            "--same-people", action="store_true", help="who has a sign-in name of the copy here is the same person"
        )

    def handle(self, *, file: Path, yes: bool, keeper: str, same_people: bool, **_: Any) -> None:
        at = timezone.localtime()
        with one_run(), work_folder() as work:
            plain = opened_copy(file, work) if is_sealed(file) else file
            told = contents(plain)
            own = connections["default"]
            with beside(plain, work / "book.sqlite3") as (made, _told):
                for sentence in what_differs():
                    self.stdout.write(sentence)
                with standing_in(own):
                    if told.kind == BOOK:
                        self.replace(told, made, at, yes)
                    else:
                        make_tables_ready()
                        self.tell(join(made, own, same_people=same_people, keeper=keeper))

    def replace(self, told: Contents, made: Any, at: datetime, yes: bool) -> None:
        there = what_is_there()
        made_on = f"{timezone.localtime(datetime.fromisoformat(told.made_at)):%Y-%m-%d %H:%M}"
        if there.rows and not yes:
            self.ask(made_on)
        kept = keep_what_is_there(there, at)
        if connection.vendor != "sqlite":
            make_tables_ready()
        settings.STATIC_ROOT.mkdir(parents=True, exist_ok=True)
        place(made, connections["default"])
        self.stdout.write(f"Restored: {', '.join(told.about) or 'an empty book'}, as it was on {made_on}.")
        if kept:
            self.stdout.write(f"What was there before is kept in {kept}")
        if there.rows and not there.readable:
            self.stdout.write("If Partner Book is running, end it and start it again.")
        self.stdout.write("Everybody signs in again, with the passwords of that day.")

    def ask(self, made_on: str) -> None:
        """Whoever runs it by a script has decided; nobody would answer there, and a copy is kept."""
        if not sys.stdin.isatty():
            return
        self.stdout.write(f"This replaces the book that is there by the copy of {made_on}. A copy of it is kept first.")
        if input("Type yes to go on: ").strip().lower() not in ("yes", "y"):
            raise Stopped("Nothing was changed.")

    def tell(self, joined: Joined) -> None:
        self.stdout.write(f"{joined.program} is now program {joined.program.pk} of this book.")
        for name, password in joined.people:
            self.stdout.write(f"Sign in as {name} with {password}" if password else f"{name} signs in as before.")


def make_tables_ready() -> None:
    if is_new():
        make_tables()
    elif readiness.is_pending():
        call_command("migrate", interactive=False, verbosity=0)
