"""Several days by their names.

days := weekday {joint weekday} | weekday ("-" | "to" | "through") weekday | "weekday" | "weekend" | "day" "except" days
"""

from __future__ import annotations

from bot.language.cycle import Named
from bot.language.tokens import Found, Tokens, text_at
from bot.language.weekdays import weekday_at

_WORKING, _FREE, _ALL = (0, 1, 2, 3, 4), (5, 6), (0, 1, 2, 3, 4, 5, 6)
GROUPS = {
    "weekday": _WORKING,
    "weekdays": _WORKING,
    "workday": _WORKING,
    "workdays": _WORKING,
    "weekend": _FREE,
    "weekends": _FREE,
}
JOINTS = frozenset({",", "and", "or", "&", "/", "+"})
EVERY = frozenset({"every", "each", "ev"})
_THROUGH = frozenset({"-", "to", "through", "thru", "till", "until"})
_EXCEPT = frozenset({"except", "but", "excluding"})


def read_weekdays(tokens: Tokens, at: int) -> Found[tuple[Named, ...]] | None:
    """The days in the order of the week: mon, wed and fri; tue-thu; weekdays; day except sunday."""
    days = _read_numbers(tokens, at)
    return Found(tuple(Named(day) for day in sorted(days.value)), days.end) if days else None


def _read_numbers(tokens: Tokens, at: int) -> Found[frozenset[int]] | None:
    if text_at(tokens, at) not in ("day", "days"):
        return _read_list(tokens, at)
    if text_at(tokens, at + 1) not in _EXCEPT:
        return None
    left_out = _read_list(tokens, at + 3 if text_at(tokens, at + 2) in ("on", "for") else at + 2)
    return Found(frozenset(_ALL) - left_out.value, left_out.end) if left_out else None


def _read_list(tokens: Tokens, at: int) -> Found[frozenset[int]] | None:
    group = GROUPS.get(text_at(tokens, at))
    if group is not None:
        return Found(frozenset(group), at + 1)
    days: frozenset[int] = frozenset()
    end = after = at
    while (stretch := _read_stretch(tokens, after)) is not None and not days >= stretch.value:
        days |= stretch.value
        end = after = stretch.end
        while (text_at(tokens, after) in JOINTS or text_at(tokens, after) in EVERY) and after < end + 3:
            after += 1
    return Found(days, end) if days else None


def _read_stretch(tokens: Tokens, at: int) -> Found[frozenset[int]] | None:
    first = weekday_at(tokens, at)
    if first is None:
        return None
    last = weekday_at(tokens, first.end + 1) if text_at(tokens, first.end) in _THROUGH else None
    if last is None:
        return Found(frozenset({int(first.value)}), first.end)
    length = (last.value - first.value) % 7 + 1
    return Found(frozenset((first.value + away) % 7 for away in range(length)), last.end)
