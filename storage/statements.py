"""Statements as the driver takes them: said with SQLAlchemy's Core, compiled once, and from then on run as text.

Compiling and preparing a statement costs many times what SQLite needs to run
it, and each message runs some dozens of the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, TypeAlias

from sqlalchemy import Delete, Dialect, Insert, Select, Update
from sqlalchemy.sql.elements import BindParameter
from sqlalchemy.types import TypeEngine

from storage.errors import Unkeepable
from storage.types import MALFORMED, Kept, Row

Statement: TypeAlias = Select[*tuple[Any, ...]] | Insert | Update | Delete
Processor: TypeAlias = Callable[[Any], Any]

DOUBLE_PRECISION = 701
"""What PostgreSQL calls the type of every number of ours that is not whole (pg_type); of other databases nobody asks."""


class Compiled:
    """A statement's text, which takes its values in order of place, and the ways to and from the values' raw forms."""

    def __init__(self, statement: Statement, given: Iterable[str], dialect: Dialect) -> None:
        keys = list(given)
        compiled = statement.compile(dialect=dialect, column_keys=None if isinstance(statement, Select) else keys)
        binds: Mapping[str, BindParameter[Any]] = compiled.binds
        keepers = {name: _keeper(binds[name].type, dialect) for name in compiled.positiontup or []}
        self.text = str(compiled)
        self._own = {name: _brought(binds[name], keep) for name, keep in keepers.items() if name not in keys}
        self._places = tuple((name, None if name in self._own else keepers[name]) for name in compiled.positiontup or [])
        self._recallers = tuple((place, *way) for place, type_ in enumerate(_types(statement)) if (way := _recaller(type_, dialect)))

    def raw(self, given: Mapping[str, Any]) -> list[Any]:
        """The values in their raw forms, each in its place. Raises Unkeepable."""
        all_given = {**self._own, **given} if self._own else given
        return [value if (value := all_given[name]) is None or keep is None else keep(value) for name, keep in self._places]

    def rows(self, raw: Sequence[Row]) -> Sequence[Row]:
        """The values of rows from their raw forms. Raises Unkeepable when one is not of our making."""
        if not self._recallers:
            return raw
        rows = list(map(list, raw))
        for place, recall, kind in self._recallers:
            for values in rows:
                if (kept := values[place]) is not None:
                    try:
                        values[place] = recall(kept)
                    except MALFORMED as malformed:
                        raise Unkeepable(kept, kind) from malformed
        return rows


class Statements:
    """What was compiled for one kind of database. Statements are said when their module is imported, so all are kept for good."""

    def __init__(self, dialect: Dialect) -> None:
        self._dialect = dialect
        self._compiled: dict[tuple[Statement | str, ...], Compiled] = {}

    def compiled(self, statement: Statement, given: Mapping[str, Any]) -> Compiled:
        """The statement for values of these names: which columns are written depends on them."""
        what = (statement, *given)
        found = self._compiled.get(what)
        if found is None:
            found = self._compiled[what] = Compiled(statement, given, self._dialect)
        return found


def _brought(bind: BindParameter[Any], keep: Processor | None) -> Any:
    """The raw form of a value that the statement itself brings."""
    own = bind.effective_value
    return own if own is None or keep is None else keep(own)


def _keeper(type_: TypeEngine[Any], dialect: Dialect) -> Processor | None:
    """What gives the raw form of a value; None where they are the same."""
    if isinstance(type_, Kept):
        return type_.keep
    keep: Processor | None = type_.dialect_impl(dialect).bind_processor(dialect)
    return keep


def _recaller(type_: TypeEngine[Any], dialect: Dialect) -> tuple[Processor, str] | None:
    """What gives the value of a raw form, and what the form is of; None where they are the same."""
    if isinstance(type_, Kept):
        return type_.recall, type(type_).__name__
    recall: Processor | None = type_.dialect_impl(dialect).result_processor(dialect, DOUBLE_PRECISION)
    return recall and (recall, type(type_).__name__)


def _types(statement: Statement) -> list[TypeEngine[Any]]:
    """The types of the columns that the statement gives."""
    told = statement.column_descriptions if isinstance(statement, Select) else statement.returning_column_descriptions
    return [column["type"] for column in told]
