"""How values are kept: as text and numbers only, so that every database keeps them alike and a journal can hold them.

Each type refuses what it could not give back exactly.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime, time
from enum import Enum
from functools import lru_cache
from typing import Any, Final, TypeAlias, TypeVar

from sqlalchemy import Integer, Text
from sqlalchemy.types import TypeDecorator, TypeEngine

from storage.errors import Unkeepable
from storage.records import Button

Raw: TypeAlias = str | int | float | bytes | None
RawRow: TypeAlias = dict[str, Raw]
Row: TypeAlias = Sequence[Any]

# Made once: ``json.dumps`` makes one for each call that asks for other than its defaults.
_COMPACT = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":"))

MALFORMED: Final = (ValueError, TypeError, LookupError)
"""What ``Kept.recall`` raises of what is not of our making."""

V = TypeVar("V")
E = TypeVar("E", bound=Enum)


class Kept(TypeDecorator[V]):
    """A value of the program, kept as text unless ``impl`` says otherwise."""

    impl: TypeEngine[Any] | type[TypeEngine[Any]] = Text
    cache_ok = True

    def keep(self, value: V) -> str | int:
        """The raw form of ``value``. Raises Unkeepable."""
        raise NotImplementedError

    def recall(self, raw: Any) -> V:
        """The value whose raw form is ``raw``. Raises one of MALFORMED when there is none."""
        raise NotImplementedError

    def process_bind_param(self, value: V | None, dialect: object) -> str | int | None:
        """The raw form on the way in, where SQLAlchemy itself runs a statement; None stays NULL."""
        return None if value is None else self.keep(value)

    def process_result_value(self, value: Any, dialect: object) -> V | None:
        """The value on the way out, likewise."""
        return None if value is None else self.recall(value)


class UtcInstant(Kept[datetime]):
    """An aware instant as sortable text in UTC, such as ``2026-03-02T05:00:00.000000Z`` (ISO 8601)."""

    cache_ok = True

    def keep(self, value: datetime) -> str:
        """Text of fixed width, so that the order of texts is the order of instants."""
        return in_utc(value).isoformat("T", "microseconds").removesuffix("+00:00") + "Z"

    def recall(self, raw: str) -> datetime:
        """An aware datetime in UTC."""
        return datetime.fromisoformat(raw)


class LocalDay(Kept[date]):
    """A day without a zone as ``2026-03-02``."""

    cache_ok = True

    def keep(self, value: date) -> str:
        """A datetime is refused: its zone and time would be lost."""
        if isinstance(value, datetime):
            raise Unkeepable(value, "a day without a time")
        return value.isoformat()

    def recall(self, raw: str) -> date:
        """The day."""
        return date.fromisoformat(raw)


class TimeOfDay(Kept[time]):
    """A local time of day as ``06:30``."""

    cache_ok = True

    def keep(self, value: time) -> str:
        """Seconds and zones are refused: they would be lost."""
        if value.tzinfo is not None or value.second or value.microsecond:
            raise Unkeepable(value, "a whole minute of a local day")
        return value.isoformat(timespec="minutes")

    def recall(self, raw: str) -> time:
        """The time of day."""
        return time.fromisoformat(raw)


class Flag(Kept[bool]):
    """True and False as 1 and 0."""

    impl = Integer
    cache_ok = True

    def keep(self, value: bool) -> int:
        """1 or 0."""
        return int(value)

    def recall(self, raw: int) -> bool:
        """True or False."""
        return bool(raw)


class Choice(Kept[E]):
    """A member of ``choices`` as the text of its value, or its lower-case name where the value is no text."""

    cache_ok = True

    def __init__(self, choices: type[E]) -> None:
        super().__init__()
        self.choices = choices
        self._texts = {member: member.value if isinstance(member.value, str) else member.name.lower() for member in choices}
        self._members = {text: member for member, text in self._texts.items()}

    def keep(self, value: E) -> str:
        """The text that stands for the member."""
        if not isinstance(value, self.choices):
            raise Unkeepable(value, f"a {self.choices.__name__}")
        return self._texts[value]

    def recall(self, raw: str) -> E:
        """The member that the text stands for."""
        try:
            return self._members[raw]
        except KeyError as unknown:
            raise Unkeepable(raw, f"a {self.choices.__name__}") from unknown


class Listed(Kept[tuple[V, ...]]):
    """A tuple as the text of a JSON array; ``plain`` and ``rich`` turn one item to what JSON holds and back."""

    cache_ok = True

    def __init__(self, plain: Callable[[V], object], rich: Callable[[Any], V]) -> None:
        super().__init__()
        self.plain = plain
        self.rich = rich
        # The same few texts come again and again: the names of a category, no pushes, no tasks.
        self._recalled = lru_cache(1024)(self._read)

    def keep(self, value: tuple[V, ...]) -> str:
        """JSON without spaces, in the order of the tuple."""
        return json_text([self.plain(item) for item in value]) if value else "[]"

    def recall(self, raw: str) -> tuple[V, ...]:
        """The items in their order."""
        return self._recalled(raw)

    def _read(self, raw: str) -> tuple[V, ...]:
        return tuple(self.rich(item) for item in json.loads(raw))


def in_utc(instant: datetime) -> datetime:
    """The same instant in UTC. Raises Unkeepable for one without an offset, which Python would take for local time."""
    if instant.tzinfo is None:
        raise Unkeepable(instant, "an instant with an offset")
    return instant if instant.tzinfo is UTC else instant.astimezone(UTC)


def json_text(value: object) -> str:
    """``value`` as compact JSON; numbers that JSON lacks raise ValueError."""
    return _COMPACT.encode(value)


def _plain_buttons(row: tuple[Button, ...]) -> list[list[str | bool]]:
    return [[button.label, button.does, button.one_of] for button in row]


def _rich_buttons(row: list[tuple[str, str, bool]]) -> tuple[Button, ...]:
    return tuple(Button(label, does, one_of) for label, does, one_of in row)


def _span(pair: list[int]) -> tuple[int, int]:
    return pair[0], pair[1]


NAMES: Listed[str] = Listed(str, str)
DAYS: Listed[date] = Listed(date.isoformat, date.fromisoformat)
IDS: Listed[int] = Listed(int, int)
SPANS: Listed[tuple[int, int]] = Listed(list, _span)
BUTTON_ROWS: Listed[tuple[Button, ...]] = Listed(_plain_buttons, _rich_buttons)
