"""Statements as the driver takes them: said with SQLAlchemy's Core, compiled once, and from then on run as text.

Compiling and preparing a statement costs many times what SQLite needs to run
it, and each message runs some dozens of the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, TypeAlias
from weakref import WeakKeyDictionary

from sqlalchemy import Delete, Dialect, Insert, Select, Update
from sqlalchemy.sql.elements import BindParameter
from sqlalchemy.types import TypeEngine

Statement: TypeAlias = Select[*tuple[Any, ...]] | Insert | Update | Delete
DOUBLE_PRECISION = 701
"""What PostgreSQL calls the type of every number of ours that is not whole (pg_type); of other databases nobody asks."""

Processor: TypeAlias = Callable[[Any], Any]


class Compiled:
    """A statement's text, which takes its values in order of place, and the ways to and from the values' raw forms."""

    def __init__(self, statement: Statement, given: Iterable[str], dialect: Dialect) -> None:
        keys = list(given)
        compiled = statement.compile(dialect=dialect, column_keys=None if isinstance(statement, Select) else keys)
        binds: Mapping[str, BindParameter[Any]] = compiled.binds
        names: list[str] = compiled.positiontup or []
        self.text = str(compiled)
        self._places = tuple(
            (name, _keeper(binds[name], dialect), None) if name in keys else (None, None, _own(binds[name], dialect)) for name in names
        )
        self._recalled = tuple((place, recall) for place, type_ in enumerate(_types(statement)) if (recall := _recaller(type_, dialect)))

    def raw(self, given: Mapping[str, Any]) -> tuple[Any, ...]:
        """The values in their raw forms, each in its place."""
        return tuple([fixed if name is None else given[name] if keep is None else keep(given[name]) for name, keep, fixed in self._places])

    def rows(self, raw: Sequence[tuple[Any, ...]]) -> Sequence[tuple[Any, ...]]:
        """The values of rows from their raw forms."""
        return [self._row(each) for each in raw] if self._recalled else raw

    def _row(self, raw: tuple[Any, ...]) -> tuple[Any, ...]:
        values = list(raw)
        for place, recall in self._recalled:
            if values[place] is not None:
                values[place] = recall(values[place])
        return tuple(values)


class Statements:
    """What was compiled for one kind of database. A statement that nobody holds any more is forgotten."""

    def __init__(self, dialect: Dialect) -> None:
        self._dialect = dialect
        self._compiled: WeakKeyDictionary[Statement, dict[tuple[str, ...], Compiled]] = WeakKeyDictionary()

    def compiled(self, statement: Statement, given: Mapping[str, Any]) -> Compiled:
        """The statement for values of these names: which columns are written depends on them."""
        forms = self._compiled.get(statement)
        if forms is None:
            forms = self._compiled[statement] = {}
        names = tuple(given)
        found = forms.get(names)
        if found is None:
            found = forms[names] = Compiled(statement, names, self._dialect)
        return found


def _keeper(bind: BindParameter[Any], dialect: Dialect) -> Processor | None:
    keep: Processor | None = bind.type.dialect_impl(dialect).bind_processor(dialect)
    return keep


def _own(bind: BindParameter[Any], dialect: Dialect) -> Any:
    """The raw form of a value that the statement itself brings."""
    keep, own = _keeper(bind, dialect), bind.effective_value
    return own if keep is None else keep(own)


def _types(statement: Statement) -> list[TypeEngine[Any]]:
    """The types of the columns that the statement gives."""
    told = statement.column_descriptions if isinstance(statement, Select) else statement.returning_column_descriptions
    return [column["type"] for column in told]


def _recaller(type_: TypeEngine[Any], dialect: Dialect) -> Processor | None:
    recall: Processor | None = type_.dialect_impl(dialect).result_processor(dialect, DOUBLE_PRECISION)
    return recall
