"""Values of any kind that a reply may hold, built from its type hints, with hostile titles for every text."""

from __future__ import annotations

import types
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from typing import Any, Literal, TypeAlias, Union, get_args, get_origin, get_type_hints
from zoneinfo import ZoneInfo

from hypothesis import strategies as st

from bot.language.meaning import Meaning, Show
from bot.rules.pay.working_time import AverageWeek
from bot.rules.planned import Planned
from storage.records import Block, Step

Texts: TypeAlias = st.SearchStrategy[str]
Numbers: TypeAlias = st.SearchStrategy[int]
SOME: Numbers = st.integers(0, 600)
NOON = datetime(2026, 3, 3, 12, tzinfo=UTC)
PLAIN: dict[object, st.SearchStrategy[Any]] = {
    datetime: st.datetimes(datetime(2026, 2, 1), datetime(2026, 4, 1)).map(lambda at: at.replace(tzinfo=UTC)),
    date: st.dates(date(2026, 2, 1), date(2026, 4, 1)),
    time: st.builds(time, st.integers(0, 23), st.integers(0, 59)),
    float: st.floats(-50, 50),
    bool: st.booleans(),
    Decimal: st.decimals(0, 100, places=2),
    Fraction: st.fractions(0, 100, max_denominator=60),
    bytes: st.binary(max_size=8),
    type(None): st.none(),
    ZoneInfo: st.just(ZoneInfo("Europe/Brussels")),
    Step: st.sampled_from([step for step in Step if step is not Step.NEW]),
    Meaning: st.just(Show("day")),
    AverageWeek: st.builds(AverageWeek, *[st.just(date(2026, 3, 3))] * 2, st.integers(0, 9000), st.integers(1, 17)),
    Planned: st.just(Block(1, date(2026, 3, 3), NOON, NOON + timedelta(hours=1), "<i>shift</i> & more", 1)),
}
# What is a text in the record and no title: it has a form of its own.
FORMED = {"zone": "Europe/Brussels", "rule": "FREQ=WEEKLY;BYDAY=TU", "weather_missing": "no place", "colour": "teal", "address": "stage:me"}


def made(kind: Any, texts: Texts, numbers: Numbers = SOME) -> st.SearchStrategy[Any]:
    """Values of the type ``kind``."""
    if kind is str:
        return texts
    if kind is int:
        return numbers
    if kind in PLAIN:
        return PLAIN[kind]
    arguments = get_args(kind)
    if get_origin(kind) in (Union, types.UnionType):
        return st.one_of([made(each, texts, numbers) for each in arguments])
    if get_origin(kind) is Literal:
        return st.sampled_from(arguments)
    if get_origin(kind) is tuple:
        return _tuple(arguments, texts, numbers)
    if isinstance(kind, type) and issubclass(kind, Enum):
        return st.sampled_from(kind)
    assert is_dataclass(kind), kind
    return _record(kind, texts, numbers)


def _tuple(arguments: tuple[Any, ...], texts: Texts, numbers: Numbers = SOME) -> st.SearchStrategy[Any]:
    if arguments[-1] is Ellipsis:
        return st.lists(made(arguments[0], texts, numbers), min_size=1, max_size=2).map(tuple)
    return st.tuples(*(made(each, texts, numbers) for each in arguments))


def _record(kind: Any, texts: Texts, numbers: Numbers = SOME) -> st.SearchStrategy[Any]:
    hints = get_type_hints(kind)
    own = {field.name: _field(field.name, hints[field.name], texts, numbers) for field in fields(kind)}
    return st.builds(kind, **own)


def _field(name: str, hint: Any, texts: Texts, numbers: Numbers = SOME) -> st.SearchStrategy[Any]:
    is_text = str in (hint, *get_args(hint))
    return st.just(FORMED[name]) if name in FORMED and is_text else made(hint, texts, numbers)
