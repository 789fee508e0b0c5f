"""Every pattern of the code, how it is used, and texts made from its own parts that would make a bad one slow."""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any

import outreach
import partners

PARSER: Any = re._parser
USES = ("match", "fullmatch", "search", "sub", "subn", "split", "findall", "finditer")
# One letter of each kind, for what a class of signs takes.
SIGNS = "a0 A-_.,;:'\"!\n\t()[]{}<>/\\@#$%&*+=?^`|~é\u00a0\x01"
ENOUGH = 8


@cache
def calls() -> list[tuple[ModuleType, str, ast.Call]]:
    """Every call of something by two names (`re.search`, `_WORD.sub`), with the function it stands in."""
    found = []
    for module in modules():
        waiting: list[tuple[str, ast.AST]] = [("", ast.parse(Path(str(module.__file__)).read_text(encoding="utf-8")))]
        while waiting:
            inside, node = waiting.pop()
            if isinstance(node, ast.FunctionDef):
                inside = node.name
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Attribute)
                and isinstance(node.func.value, ast.Name)
            ):
                found.append((module, inside, node))
            waiting += [(inside, one) for one in ast.iter_child_nodes(node)]
    return found


def modules() -> Iterator[ModuleType]:
    for package in (partners, outreach):
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            if not set(found.name.split(".")) & {"migrations", "config", "management"}:
                yield importlib.import_module(found.name)


def held(value: Any, deep: int = 3) -> Iterator[re.Pattern[Any]]:
    """The patterns in a value of a module, also those in its lists and tables."""
    if isinstance(value, re.Pattern):
        yield value
    elif deep and isinstance(value, dict):
        for one in (*value.keys(), *value.values()):
            yield from held(one, deep - 1)
    elif deep and isinstance(value, list | tuple | set | frozenset):
        for one in value:
            yield from held(one, deep - 1)
    elif (
        deep
        and type(value).__module__.startswith(("partners.", "outreach."))
        and hasattr(value, "__dataclass_fields__")
    ):
        for name in value.__dataclass_fields__:
            yield from held(getattr(value, name, None), deep - 1)


def every_pattern() -> dict[str, tuple[re.Pattern[Any], set[str]]]:
    """By where it stands: the pattern, and the ways in which it is used (`search` where that cannot be seen)."""
    found: dict[str, tuple[re.Pattern[Any], set[str]]] = {}
    used: dict[str, set[str]] = {}
    for module, _inside, call in calls():
        owner, way = called(call)
        if owner == "re" and call.args and isinstance(call.args[0], ast.Constant) and way in USES:
            found[f"{module.__name__}:{call.lineno}"] = (re.compile(call.args[0].value), {way})
        elif way in USES:
            used.setdefault(owner, set()).add(way)
    for module in modules():
        for name, value in vars(module).items():
            for number, pattern in enumerate(held(value)):
                ways = used.get(name, set()) if isinstance(value, re.Pattern) else set()
                found.setdefault(f"{module.__name__}.{name}.{number}", (pattern, ways))
    # The same pattern is looked at once, in every way that any module uses it.
    merged: dict[tuple[Any, int], tuple[str, set[str]]] = {}
    for place, (pattern, ways) in found.items():
        first, all_ways = merged.setdefault((pattern.pattern, pattern.flags), (place, set()))
        all_ways |= ways | used.get(first.rsplit(".", 2)[-2] if "." in first else "", set())
    return {place: (re.compile(text, flags), ways or {"search"}) for (text, flags), (place, ways) in merged.items()}


def called(call: ast.Call) -> tuple[str, str]:
    return call.func.value.id, call.func.attr


def written_inside() -> list[str]:
    """Places where a pattern is put together while the site runs, so that no module holds it."""
    return sorted(
        {
            f"{module.__name__}.{inside}"
            for module, inside, call in calls()
            if inside and called(call)[0] == "re" and called(call)[1] in (*USES, "compile")
            if not isinstance(call.args[0], ast.Constant)
        }
    )


def samples(nodes: Any, turn: int = 0) -> str:
    """A text that the nodes would match, or nearly; `turn` chooses among alternatives."""
    return "".join(sample(op, value, turn) for op, value in nodes)


def sample(op: Any, value: Any, turn: int) -> str:
    name = str(op)
    if name == "LITERAL":
        return chr(value)
    if name in ("NOT_LITERAL", "IN", "ANY"):
        return next((sign for sign in SIGNS[turn:] + SIGNS if takes(op, value, sign)), "a")
    if name == "BRANCH":
        return samples(value[1][turn % len(value[1])], turn)
    if name in ("SUBPATTERN", "ATOMIC_GROUP"):
        return samples(value[-1] if name == "SUBPATTERN" else value, turn)
    if name in ("MAX_REPEAT", "MIN_REPEAT", "POSSESSIVE_REPEAT"):
        least, most, inner = value
        return samples(inner, turn) * max(least, min(1, int(most)))
    return ""


def takes(op: Any, value: Any, sign: str) -> bool:
    name = str(op)
    if name == "ANY":
        return sign != "\n"
    if name == "NOT_LITERAL":
        return ord(sign) != value
    refused = str(value[0][0]) == "NEGATE"
    return any(holds(one, inner, sign) for one, inner in value if str(one) != "NEGATE") != refused


def holds(op: Any, value: Any, sign: str) -> bool:
    name = str(op)
    if name == "LITERAL":
        return ord(sign) == value
    if name == "RANGE":
        return bool(value[0] <= ord(sign) <= value[1])
    kinds = {"DIGIT": sign.isdigit(), "SPACE": sign.isspace(), "WORD": sign.isalnum() or sign == "_"}
    kind = str(value).removeprefix("CATEGORY_").removeprefix("UNI_")
    return not kinds[kind[4:]] if kind.startswith("NOT_") else kinds[kind]


def repeats(nodes: Any, before: str = "") -> Iterator[tuple[str, str]]:
    """For every part that may come again and again: what stands before it, and what comes again."""
    for op, value in nodes:
        name = str(op)
        if name in ("MAX_REPEAT", "MIN_REPEAT") and int(value[1]) >= ENOUGH:
            yield from ((before, again) for turn in range(3) if (again := samples(value[2], turn)))
            yield from repeats(value[2], before)
        elif name in ("MAX_REPEAT", "MIN_REPEAT"):
            yield from repeats(value[2], before)
        elif name == "SUBPATTERN":
            yield from repeats(value[-1], before)
        elif name == "BRANCH":
            for one in value[1]:
                yield from repeats(one, before)
        elif name in ("ASSERT", "ASSERT_NOT"):
            yield from repeats(value[1], before)
        before += sample(op, value, 0)


def attacks(pattern: re.Pattern[Any]) -> list[tuple[str, str, str]]:
    """Beginnings, what is repeated, and ends that make the whole fail at last."""
    text = pattern.pattern if isinstance(pattern.pattern, str) else pattern.pattern.decode("latin-1")
    # What whole matches in a row do, and blanks and letters, whatever the pattern is about.
    flags = pattern.flags & ~re.UNICODE if isinstance(pattern.pattern, bytes) else pattern.flags
    tree = PARSER.parse(text, flags & ~re.DEBUG)
    made = {(before, again, end) for before, again in repeats(tree) for end in ("", "\x00", "!")}
    made |= {("", again, "\x00") for again in (samples(tree), " ", "a", "a ", "0", "\n") if again}
    return sorted(made)
