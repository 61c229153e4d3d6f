"""Values of any kind that a reply may hold, built from its type hints, with hostile titles for every text."""

from __future__ import annotations

import types
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, is_dataclass
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
FORMED: dict[tuple[str, type], st.SearchStrategy[Any]] = {
    ("zone", str): st.just("Europe/Brussels"),
    ("rule", str): st.just("FREQ=WEEKLY;BYDAY=TU"),
    ("colour", str): st.just("teal"),
    ("address", str): st.just("stage:me"),
}


@dataclass(frozen=True, slots=True)
class Making:
    """How values are made: what texts and numbers hold, what certain kinds and certain fields do, and how few a tuple has."""

    texts: Texts
    numbers: Numbers = field(default_factory=lambda: SOME)
    kinds: Mapping[object, st.SearchStrategy[Any]] = field(default_factory=lambda: PLAIN)
    named: Mapping[tuple[str, type], st.SearchStrategy[Any]] = field(default_factory=lambda: FORMED)
    fewest: int = 1

    def made(self, kind: Any) -> st.SearchStrategy[Any]:
        """Values of the type ``kind``."""
        if kind in self.kinds:
            return self.kinds[kind]
        if kind in (str, int):
            return self.texts if kind is str else self.numbers
        arguments = get_args(kind)
        if get_origin(kind) in (Union, types.UnionType):
            return st.one_of([self.made(each) for each in arguments])
        if get_origin(kind) is Literal:
            return st.sampled_from(arguments)
        if get_origin(kind) is tuple:
            return self._tuple(arguments)
        if isinstance(kind, type) and issubclass(kind, Enum):
            return st.sampled_from(kind)
        assert is_dataclass(kind), kind
        return self._record(kind)

    def _tuple(self, arguments: tuple[Any, ...]) -> st.SearchStrategy[Any]:
        if arguments[-1] is Ellipsis:
            return st.lists(self.made(arguments[0]), min_size=self.fewest, max_size=2).map(tuple)
        return st.tuples(*(self.made(each) for each in arguments))

    def _record(self, kind: Any) -> st.SearchStrategy[Any]:
        hints = get_type_hints(kind)
        return st.builds(kind, **{each.name: self._field(each.name, hints[each.name]) for each in fields(kind)})

    def _field(self, name: str, hint: Any) -> st.SearchStrategy[Any]:
        kinds = get_args(hint) or (hint,)
        formed = next((self.named[name, kind] for kind in kinds if (name, kind) in self.named), None)
        if formed is None:
            return self.made(hint)
        return st.one_of(st.none(), formed) if type(None) in kinds else formed
