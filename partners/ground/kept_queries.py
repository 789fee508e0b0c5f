"""Questions asked again and again in one shape: their SQL is written once for each connection, then only values change.

To begin a queryset, narrow it and write its SQL costs several times what the database needs to answer; a page that
asks dozens of them for a few rows each waits for little else.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Collection, Hashable, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import count
from typing import Any

from django.core.exceptions import EmptyResultSet
from django.db import DEFAULT_DB_ALIAS, connections
from django.db.models import QuerySet

Row = tuple[Any, ...]

# About 16 KB each. A book needs some 150; where there are many, what was asked longest ago is written again.
MOST = 1024
# What stands for a value while the SQL is written: no book holds them.
LOT = 64
DAYS = tuple(date(1, 1, 1 + n) for n in range(1, 4))
FIRST_NUMBER = -(2**52)


@dataclass(frozen=True, slots=True)
class Kept:
    """SQL with its parameters; `places` names those that change."""

    sql: str
    params: tuple[Any, ...]
    places: tuple[tuple[int, str], ...]
    compiler: Any
    converters: Mapping[int, Any]

    def rows(self, values: Mapping[str, Any]) -> list[Row]:
        params = list(self.params)
        for place, name in self.places:
            params[place] = adapted(self.compiler.connection, values[name])
        with self.compiler.connection.cursor() as cursor:
            cursor.execute(self.sql, params)
            found = cursor.fetchall()
        return list(map(tuple, self.compiler.apply_converters(found, self.converters))) if self.converters else found


def kept_rows(
    shape: Hashable, values: Mapping[str, date | int], ask: Callable[[Mapping[str, Any]], QuerySet[Any, Row]]
) -> list[Row]:
    """The rows of `ask(values)`, a `values_list`; `shape` tells everything else that its SQL depends on."""
    connection = connections[DEFAULT_DB_ALIAS]
    kept: OrderedDict[Hashable, Kept] = vars(connection).setdefault("kept_queries", OrderedDict())
    found = kept.pop(shape, None) or written(connection, values, ask)
    if found is None:
        return list(ask(values))
    if len(kept) >= MOST:
        kept.popitem(last=False)
    kept[shape] = found
    return found.rows(values)


def kept_rows_of(
    shape: Hashable, numbers: Collection[int], ask: Callable[[Collection[int]], QuerySet[Any, Row]]
) -> list[Row]:
    """The rows of `ask(numbers)`, which come in no order, for any number of them; a page asks for about one lot."""
    asked = list(numbers)
    rows = []
    for start in range(0, len(asked), LOT):
        lot = asked[start : start + LOT]
        # As many places as the SQL has: the same number again finds nothing more.
        values = {f"number_{place}": number for place, number in enumerate(lot + lot[-1:] * (LOT - len(lot)))}
        rows += kept_rows(shape, values, lambda stand_ins: ask(stand_ins.values()))
    return rows


def written(
    connection: Any, values: Mapping[str, date | int], ask: Callable[[Mapping[str, Any]], QuerySet[Any, Row]]
) -> Kept | None:
    """None where no row can be found, or where a value stands in the SQL itself: that is asked anew each time."""
    stand_ins = stand_ins_of(values)
    compiler = ask(stand_ins).query.get_compiler(connection=connection)
    try:
        sql, params = compiler.as_sql()
    except EmptyResultSet:
        return None
    places = tuple(
        (place, name)
        for name, stand_in in stand_ins.items()
        for place, param in enumerate(params)
        if param == adapted(connection, stand_in)
    )
    everywhere = values.keys() == {name for _place, name in places}
    converters = compiler.get_converters([column for column, *_told in compiler.select[: compiler.col_count]])
    return Kept(sql, tuple(params), places, compiler, converters) if everywhere else None


def stand_ins_of(values: Mapping[str, date | int]) -> dict[str, date | int]:
    days, numbers = iter(DAYS), count(FIRST_NUMBER, -1)
    return {name: next(days) if isinstance(value, date) else next(numbers) for name, value in values.items()}


def adapted(connection: Any, value: date | int) -> Any:
    """As the connection takes it."""
    return connection.ops.adapt_datefield_value(value) if isinstance(value, date) else value
