"""The wall between programs: the database itself refuses a reference to another program's row.

The plain foreign key only says that the row exists. The second one, over (program_id, id), says whose it is; it holds
on SQLite and PostgreSQL for create, bulk_create and update alike.
"""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.db.backends.ddl_references import Statement, Table
from django.db.models.constraints import BaseConstraint
from django.utils.translation import gettext_lazy as _


class SameProgram(BaseConstraint):
    """(program_id, <field>_id) references (program_id, id) of the field's target."""

    default_violation_error_message = _("That belongs to another program.")

    def __init__(self, *, field: str, name: str, violation_error_code: Any = None, violation_error_message: Any = None):
        super().__init__(
            name=name, violation_error_code=violation_error_code, violation_error_message=violation_error_message
        )
        self.field = field

    def _sql(self, model: type[models.Model], schema_editor: Any) -> str:
        quote = schema_editor.quote_name
        own: Any = model._meta.get_field(self.field)
        target = own.remote_field.model._meta
        return (
            f"CONSTRAINT {quote(self.name)} FOREIGN KEY ({quote('program_id')}, {quote(own.column)}) "
            f"REFERENCES {quote(target.db_table)} ({quote('program_id')}, {quote(target.pk.column)}) "
            "DEFERRABLE INITIALLY DEFERRED"
        )

    def constraint_sql(self, model: Any, schema_editor: Any) -> Any:
        if schema_editor.connection.vendor == "sqlite":
            return self._sql(model, schema_editor)
        return self.create_sql(model, schema_editor)

    def _alter(self, action: str, model: Any, schema_editor: Any) -> Any:
        if schema_editor.connection.vendor == "sqlite":
            schema_editor._remake_table(model)
            return None
        table = Table(model._meta.db_table, schema_editor.quote_name)
        return Statement("ALTER TABLE %(table)s " + action.replace("%", "%%"), table=table)

    def create_sql(self, model: Any, schema_editor: Any) -> Any:
        """Added last of all: what it refers to may be made unique later in the same migration."""
        statement = self._alter("ADD " + self._sql(model, schema_editor), model, schema_editor)
        if statement is not None:
            schema_editor.deferred_sql.append(statement)

    def remove_sql(self, model: Any, schema_editor: Any) -> Any:
        return self._alter("DROP CONSTRAINT " + schema_editor.quote_name(self.name), model, schema_editor)

    def validate(self, model: Any, instance: Any, exclude: Any = None, using: str = "default") -> None:
        own = model._meta.get_field(self.field)
        other = getattr(instance, own.attname)
        if other is None or (exclude and self.field in exclude):
            return
        rows = own.remote_field.model._base_manager.using(using)
        if not rows.filter(pk=other, program_id=instance.program_id).exists():
            error = ValidationError(self.get_violation_error_message(), code="other_program")
            raise ValidationError({self.field: error})

    def deconstruct(self) -> Any:
        path, args, kwargs = super().deconstruct()
        kwargs["field"] = self.field
        return path, args, kwargs

    def __eq__(self, other: object) -> bool:
        return isinstance(other, SameProgram) and self.deconstruct() == other.deconstruct()

    __hash__ = BaseConstraint.__hash__


def wall(model: str, *fields: str) -> list[BaseConstraint]:
    """The constraints every row carries: it can be referred to within its program, and `fields` refer within it."""
    own: BaseConstraint = models.UniqueConstraint(fields=["program", "id"], name=f"{model}_in_program")
    return [own, *(SameProgram(field=field, name=f"{model}_{field}_wall") for field in fields)]
