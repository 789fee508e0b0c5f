"""`python3 manage.py backup [FILE]`: a copy of the book, or of one program, looked through before it counts."""

from __future__ import annotations

import os
from argparse import ArgumentParser
from functools import partial
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand
from django.db import connection
from django.utils import timezone

from partners.config.copy_runs import one_run, passphrase_for_new
from partners.config.hindrance import Stopped
from partners.copies.keeping import Made, daily_copy, dated, make_copy, noted
from partners.copies.tables import newest_step, step_of
from partners.copies.writing import write_program
from partners.program.last_copy import folder
from partners.program.models import Program


class Command(BaseCommand):
    help = (
        "Makes a copy of the whole book, opens it again and checks it. Without FILE into the folder copies beside "
        "the book. Sessions, signed-in devices and the site's secret key are not in it."
    )
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument(
            "file", nargs="?", type=Path, help="where to; a folder gets a file with the date in its name"
        )
        parser.add_argument("--program", help="only this program, by its number or its name")
        parser.add_argument("--encrypt", action="store_true", help="lock it with a passphrase, which is asked for")
        parser.add_argument(
            "--daily", action="store_true", help="the copy of this day if there is none, and let old ones go"
        )

    def handle(self, *, file: Path | None, program: str | None, encrypt: bool, daily: bool, **_: Any) -> None:
        at = timezone.localtime()
        if daily and os.name == "posix":
            # Pages are answered first.
            os.nice(10)
        with one_run():
            if not step_of(connection):
                raise Stopped("There is no book yet to copy: start Partner Book once.")
            passphrase = passphrase_for_new(encrypt)
            if daily:
                keep, days = max(1, settings.COPIES_KEPT), settings.COPIES_KEPT_DAYS
                done = daily_copy(at=at, keep=keep, days=days, passphrase=passphrase)
            elif program:
                chosen = self.named(program)
                to = self.place(file, dated(f"program-{chosen.pk}", at, bool(passphrase)))
                done = make_copy(to=to, at=at, passphrase=passphrase, write=partial(write_program, program=chosen))
            else:
                to = self.place(file, dated("book", at, bool(passphrase)))
                done = noted(make_copy(to=to, at=at, passphrase=passphrase), at, passphrase)
        self.tell(done)

    def place(self, file: Path | None, name: str) -> Path:
        if file is None:
            return folder() / name
        return file / name if file.is_dir() else file.absolute()

    def named(self, program: str) -> Program:
        """Raises Stopped, with the programs there are."""
        if step_of(connection) != newest_step():
            raise Stopped("This book is from an older Partner Book: start Partner Book once, then copy the program.")
        chosen = Program.objects.filter(name=program) or Program.objects.filter(
            pk=int(program) if program.isdecimal() else 0
        )
        if len(chosen) != 1:
            known = "; ".join(f"{pk} {name}" for pk, name in Program.objects.order_by("pk").values_list("pk", "name"))
            raise Stopped(f"Name one program by its number or its name. There are: {known or 'none'}.")
        return chosen[0]

    def tell(self, done: Made | None) -> None:
        if done is None:
            self.stdout.write("The copy of this day is there already.")
            return
        for sentence in done.differing:
            self.stdout.write(sentence)
        self.stdout.write(f"{done.contents.rows:,} rows are copied to {done.path}")
        if done.differing:
            raise Stopped("The copy is true to the book, but the book itself does not fit together; see above.")
        self.stdout.write("The copy was opened again and everything in it fits together.")
