"""Nothing reads the words of an address without being noted."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from operator import methodcaller
from typing import Any

import pytest
from django.http import QueryDict

from tests.whole_site.watched import ALL, READ_ALL, Watched

ONE: dict[str, Callable[[Any], Any]] = {
    "by its name": lambda words: words["a"],
    "by its name or nothing": lambda words: words.get("a"),
    "whether it is there": lambda words: "a" in words,
    "every time it is said": lambda words: words.getlist("a"),
}
EVERY: dict[str, Callable[[Any], Any]] = {
    "truth": bool,
    "length": len,
    "list": list,
    "dict": dict,
    "spread": lambda words: {**words},
    "merged": lambda words: {} | words,
    "equal": lambda words: words == {},
    "text": repr,
    "copy": copy.copy,
    "deep copy": copy.deepcopy,
    "pickle": pickle.dumps,
    "backwards": lambda words: [*reversed(words)],
    **{f"its own {name}": methodcaller(name) for name in READ_ALL if not name.startswith("_")},
}
# What changes the words, or makes others.
WRITES = {
    "__init__", "__new__", "__setitem__", "__delitem__", "__setstate__", "__ior__", "_assert_mutable", "appendlist",
    "clear", "fromkeys", "pop", "popitem", "setdefault", "setlist", "setlistdefault", "update",
}  # fmt: skip


def asked(read: Callable[[Any], Any]) -> set[str]:
    words = Watched("a=1&b=2")
    Watched.asked.clear()
    read(words)
    return set(Watched.asked)


@pytest.mark.parametrize("way", ONE)
def test_a_word_that_is_read_is_noted(way: str) -> None:
    assert asked(ONE[way]) == {"a"}


@pytest.mark.parametrize("way", EVERY)
def test_who_reads_all_words_is_noted(way: str) -> None:
    assert ALL in asked(EVERY[way])


def test_every_way_of_reading_is_watched() -> None:
    """Whatever Django's own class can be asked is watched, or only writes, or says nothing of the words."""
    watched = {*READ_ALL, "__getitem__", "__contains__", "getlist"}
    # `get` goes by the name, `_getlist` is what `getlist` calls; the rest is of every object, or about the encoding.
    others = {"get", "_getlist", "__class_getitem__", "__dict__", "__weakref__", "encoding", "_encoding", "_mutable"}
    assert set(dir(QueryDict)) - watched - WRITES - others - {*dir(object), "__module__"} == set()
    assert watched - set(dir(Watched)) == set()
