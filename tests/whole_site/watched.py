"""The words of an address, noting which of them a page asks for.

A page that never asked for a word, nor for all of them, comes out the same whatever that word is: everything it did
before it could have met the word is the same. So only the words that a page asks for need to be tried on it.
"""

from __future__ import annotations

from typing import Any

from django.http import QueryDict

ALL = "all of them"


class Watched(QueryDict):
    """Stands in for Django's own, where it makes `request.GET`; `asked` is what was asked for since it was cleared."""

    asked: set[str] = set()

    def __getitem__(self, key: str) -> Any:
        self.asked.add(key)
        return super().__getitem__(key)

    def __contains__(self, key: object) -> bool:
        self.asked.add(str(key))
        return super().__contains__(key)

    def getlist(self, key: str, default: Any = None) -> Any:
        self.asked.add(key)
        return super().getlist(key, default)


def _asks_for_all(name: str) -> Any:
    def read(self: Watched, *args: Any, **kwargs: Any) -> Any:
        self.asked.add(ALL)
        return getattr(super(Watched, self), name)(*args, **kwargs)

    return read


READ_ALL = (
    "__iter__", "__len__", "__eq__", "__or__", "__ror__", "__repr__", "__reversed__", "__copy__", "__deepcopy__",
    "__getstate__", "keys", "items", "lists", "values", "dict", "copy", "urlencode",
)  # fmt: skip
for _name in READ_ALL:
    setattr(Watched, _name, _asks_for_all(_name))
