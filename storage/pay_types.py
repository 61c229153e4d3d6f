"""How the values of paid work are kept. Money is decimal text, never a binary float."""

from __future__ import annotations

import json
from dataclasses import fields
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any, Final

from storage.errors import Unkeepable
from storage.records import BreakRule, DayHandedIn, Limit, OvertimeRules, Rounded, Rounding, RoundingStep
from storage.types import Kept, Listed, json_text


class Money(Kept[Decimal]):
    """A finite decimal as text with all its digits, such as ``14.50``."""

    cache_ok = True

    def keep(self, value: Decimal) -> str:
        """A float is refused, because it is not what it shows; so is what is no number."""
        if not isinstance(value, Decimal) or not value.is_finite():
            raise Unkeepable(value, "a finite decimal")
        return format(value, "f")

    def recall(self, raw: str) -> Decimal:
        """The decimal with the digits that were kept."""
        return _decimal(raw)


class RoundingText(Kept[Rounding]):
    """Rounding in words, such as ``15 each day``."""

    cache_ok = True

    def keep(self, value: Rounding) -> str:
        """The step in minutes, and what is rounded."""
        return f"{value.step.value} {value.what.value}"

    def recall(self, raw: str) -> Rounding:
        """The step and what is rounded."""
        step, what = raw.split(" ", 1)
        return Rounding(RoundingStep(int(step)), Rounded(what))


class OvertimeText(Kept[OvertimeRules]):
    """Overtime rules as JSON: of each name, pairs of minutes and how many times they pay, the latter as text."""

    cache_ok = True

    def keep(self, value: OvertimeRules) -> str:
        """JSON without spaces."""
        return json_text({name: [_plain_limit(each) for each in getattr(value, name)] for name in _LIMITS})

    def recall(self, raw: str) -> OvertimeRules:
        """The rules."""
        kept = json.loads(raw)
        return OvertimeRules(*(tuple(_rich_limit(each) for each in kept[name]) for name in _LIMITS))


_LIMITS: Final = tuple(field.name for field in fields(OvertimeRules))


def _plain_limit(limit: Limit) -> list[int | str]:
    return [limit.over_minutes, format(limit.times, "f")]


def _rich_limit(pair: list[Any]) -> Limit:
    return Limit(pair[0], _decimal(pair[1]))


def _plain_break(rule: BreakRule) -> list[int]:
    return [rule.after_minutes, rule.minutes]


def _rich_break(pair: list[int]) -> BreakRule:
    return BreakRule(*pair)


def _plain_day(day: DayHandedIn) -> list[str | int]:
    return [day.day.isoformat(), day.worked, day.paid]


def _rich_day(kept: list[Any]) -> DayHandedIn:
    return DayHandedIn(date.fromisoformat(kept[0]), kept[1], kept[2])


def _decimal(text: str) -> Decimal:
    """The decimal. Raises ValueError, as every reader of what is kept does, where the text is none."""
    try:
        return Decimal(text)
    except InvalidOperation as malformed:
        raise ValueError(text) from malformed


MONEY: Final = Money()
ROUNDING: Final = RoundingText()
OVERTIME: Final = OvertimeText()
BREAKS: Final[Listed[BreakRule]] = Listed(_plain_break, _rich_break)
DAYS_HANDED_IN: Final[Listed[DayHandedIn]] = Listed(_plain_day, _rich_day)
