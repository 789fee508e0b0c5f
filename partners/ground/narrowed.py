"""What a list is narrowed to, as its address says, in the words of its form."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Narrowed:
    """`further` are the words of what stands behind the fold, and not before it."""

    given: Collection[str]
    further: str

    def __bool__(self) -> bool:
        return bool(self.given)


def narrowed(request: Any, filter_set: Any, but: Collection[str] = ("q",)) -> Narrowed:
    """A choice that does not exist narrows nothing, and is said in no words."""
    given = [name for name in filter_set.filters if request.GET.get(name)]
    said = (_words(filter_set.form[name], request.GET[name]) for name in given if name not in but)
    return Narrowed(given, ", ".join(filter(None, said)))


def _words(field: Any, value: str) -> str:
    choices = getattr(field.field, "choices", None)
    if choices is None:
        return f"{field.label}: {value}"
    return next((str(label) for key, label in choices if str(key) == value), "")
