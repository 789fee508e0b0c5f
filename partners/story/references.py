"""What can stand on a row, read from the models."""

from __future__ import annotations

from collections.abc import Iterator

from partners.ground.models import Row


def references(model: type[Row]) -> Iterator[tuple[type[Row], str]]:
    """Every kind of row that can refer to one of this model, and by which column; read from the models."""
    for relation in model._meta.related_objects:
        if isinstance(relation.related_model, type) and issubclass(relation.related_model, Row):
            yield relation.related_model, relation.field.name
