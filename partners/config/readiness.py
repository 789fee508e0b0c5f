"""Brings the database to where the code expects it, and fills a book that is new."""

from __future__ import annotations

import importlib.util
import pkgutil
from datetime import date
from pathlib import Path

from django.apps import apps
from django.conf import settings
from django.core.management import call_command
from django.db import OperationalError, connection, transaction
from django.db.migrations.recorder import MigrationRecorder

from partners.config.hindrance import FULL, Stopped
from partners.config.new_database import is_new, make_tables


def migrations_on_disk() -> set[tuple[str, str]]:
    """The (app, name) of every migration file of the installed apps, found without importing any."""
    found = set()
    for app in apps.get_app_configs():
        spec = importlib.util.find_spec(f"{app.name}.migrations")
        for folder in (spec.submodule_search_locations or ()) if spec else ():
            names = (module.name for module in pkgutil.iter_modules([folder]))
            found |= {(app.label, name) for name in names if name[0] not in "_~"}
    return found


def is_pending() -> bool:
    """Whether a migration waits; one query, so that a start with nothing to do stays quick."""
    return not migrations_on_disk() <= MigrationRecorder(connection).applied_migrations().keys()


def make_ready(day: date, *, empty: bool) -> tuple[str, str] | None:
    """Makes the tables, or migrates them, and loads the demo book, as of this day, into a book not begun `empty`.

    Gives the demo's sign-in name and password when it was loaded just now. Raises Stopped when the database refuses,
    or when an empty book is asked for where another is.
    """
    from partners.program.models import Program, User

    settings.STATIC_ROOT.mkdir(parents=True, exist_ok=True)
    begun_empty = settings.DATA_DIR / "begun-empty"
    try:
        if is_new():
            make_tables()
        elif is_pending():
            call_command("migrate", interactive=False, verbosity=0)
        if Program.objects.exists() or User.objects.exists():
            if empty and not begun_empty.exists():
                raise Stopped(
                    f"The folder {settings.DATA_DIR} holds a book already, maybe the demo book: leave --empty out to "
                    "open it, or rename that folder and run the same command again to begin an empty one."
                )
            return None
        if empty:
            begun_empty.touch()
        if begun_empty.exists():
            return None
        from partners.config.demo_book import load_demo

        with transaction.atomic():
            return load_demo(day)
    except OperationalError as problem:
        if _is_interrupted(problem):
            raise KeyboardInterrupt from problem
        raise of_database(problem) from problem


def _is_interrupted(problem: BaseException | None) -> bool:
    """Whether Ctrl-C lies beneath: the database complains of the half-made table before the interrupt gets through."""
    while problem is not None:
        if isinstance(problem, KeyboardInterrupt):
            return True
        problem = problem.__cause__ or problem.__context__
    return False


def of_database(problem: OperationalError) -> Stopped:
    """The sentence for a database that cannot be reached or written. Raises the problem again where it is another."""
    text = str(problem).strip()
    place = connection.settings_dict
    if connection.vendor == "postgresql":
        where = f"{place['NAME']} at {place['HOST'] or 'this machine'}:{place['PORT'] or 5432}"
        return Stopped(
            f"The database {where}, which PARTNER_BOOK_DATABASE names, cannot be used "
            f"({text.splitlines()[-1]}): start it or mend the variable, then run the same command again."
        )
    if "is full" in text:
        return Stopped(FULL)
    if "locked" in text:
        return Stopped("Another program holds the book: end it (or the other window), then run the same command again.")
    if "readonly" in text or "unable to open" in text:
        return Stopped(
            f"The book in {Path(place['NAME']).parent} cannot be written: make that folder yours to write, or name "
            "another with PARTNER_BOOK_DATA."
        )
    raise problem
