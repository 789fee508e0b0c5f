"""The tables of a database that has none yet, made straight from the models.

To go through the migrations one by one takes Django ten times as long, since it draws up all models anew for each
step; on an old laptop that is a minute. `tests/whole_site/test_migrations.py` holds both ways against each other.
"""

from __future__ import annotations

from django.apps import apps
from django.core.management.sql import emit_post_migrate_signal
from django.db import DEFAULT_DB_ALIAS, connections
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder


def is_new(alias: str = DEFAULT_DB_ALIAS) -> bool:
    """Whether the database holds no table at all."""
    return not connections[alias].introspection.table_names()


def make_tables(alias: str = DEFAULT_DB_ALIAS) -> None:
    """Every table of every app, and each migration noted as applied; all of it or, when it is interrupted, nothing."""
    database = connections[alias]
    loader = MigrationLoader(database)
    with database.schema_editor() as editor:
        for model in apps.get_models():
            if model._meta.can_migrate(database):
                editor.create_model(model)
        recorder = MigrationRecorder(database)
        recorder.ensure_schema()
        for app, name in loader.graph.nodes:
            recorder.record_applied(app, name)
    emit_post_migrate_signal(verbosity=0, interactive=False, db=alias)
