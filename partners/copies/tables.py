"""Which tables are copied, with which columns, at whatever step of the schema the database stands."""

from __future__ import annotations

import importlib.util
import pkgutil
from collections.abc import Sequence
from functools import cache
from typing import Any

from django.apps import apps
from django.db import models
from django.db.migrations.loader import MigrationLoader

from partners.copies.form import Table

APP = "partners"
# Signed-in devices belong to a running site, as sessions and the secret key do: a copy holds no way in.
LEFT_OUT = {"device"}


def newest_step() -> str:
    """The last migration on disk, by its name; found without importing any."""
    spec = importlib.util.find_spec(f"{APP}.migrations")
    folders = spec.submodule_search_locations or () if spec else ()
    return max(module.name for module in pkgutil.iter_modules(folders) if module.name[0].isdigit())


def step_of(connection: Any) -> str:
    """The last migration that the database went through, or "" for one without tables."""
    with connection.cursor() as cursor:
        found = connection.introspection.table_names(cursor)
        if f"{APP}_program" not in found:
            return ""
        if "django_migrations" not in found:
            return newest_step()
        cursor.execute("SELECT max(name) FROM django_migrations WHERE app = %s", [APP])
        # Tables that no migration made were made from the models.
        return cursor.fetchone()[0] or newest_step()


@cache
def apps_at(step: str) -> Any:
    """All apps as they were after an earlier migration. To draw them up takes a second."""
    return MigrationLoader(None).project_state((APP, step)).apps


def models_at(step: str) -> Sequence[Any]:
    """The models as the tables of this step have them; today's own where nothing waits, which is quicker."""
    found: Any = (apps if step == newest_step() else apps_at(step)).get_app_config(APP).get_models()
    return [model for model in found if model._meta.model_name not in LEFT_OUT]


def table_of(model: Any) -> Table:
    fields = model._meta.concrete_fields
    holding = [str(field.column) for field in fields if isinstance(field, models.BinaryField)]
    return Table(model._meta.db_table, [str(field.column) for field in fields], holding)
