"""Columns of our own."""

from __future__ import annotations

from typing import Any

from django.db import models

from partners.ground.names import KEY_LENGTH


class KeyField(models.CharField):  # type: ignore[type-arg]
    """A folded text for order and search, compared code point by code point on both database engines."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("max_length", KEY_LENGTH)
        kwargs.setdefault("editable", False)
        kwargs.setdefault("default", "")
        kwargs.setdefault("blank", True)
        super().__init__(*args, **kwargs)

    def db_parameters(self, connection: Any) -> Any:
        parameters = super().db_parameters(connection)
        if connection.vendor == "postgresql":
            parameters["collation"] = "C"
        return parameters
