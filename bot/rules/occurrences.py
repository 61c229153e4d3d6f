"""The single times at which commitments take place."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Set
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache

from dateutil.rrule import rrule, rrulestr

from bot.rules.local_time import ONE_DAY, day_bounds, instant_at, local, local_day
from bot.rules.spans import Timed
from bot.rules.weeks import DAY_CODES
from storage.records import Commitment, Occurrence

# Months and years differ in length, so rules of those periods are walked from
# their start: a dozen steps a year at most.
PERIODS = {
    "SECONDLY": timedelta(seconds=1),
    "MINUTELY": timedelta(minutes=1),
    "HOURLY": timedelta(hours=1),
    "DAILY": timedelta(days=1),
    "WEEKLY": timedelta(weeks=1),
}


class RuleFault(ValueError):
    """A recurrence rule that cannot be read. ``rule`` is its text."""

    def __init__(self, rule: str, reason: str) -> None:
        super().__init__(f"{rule}: {reason}")
        self.rule = rule
        self.reason = reason


def occurrences(commitments: Iterable[Commitment], first_day: date, last_day: date, zone: str | None = None) -> tuple[Occurrence, ...]:
    """Every occurrence that starts on a day from ``first_day`` to ``last_day``, both included, earliest first.

    Days are those of ``zone``, or of each commitment's own zone when it is
    None. A recurring commitment keeps to the wall clock of its own zone at
    both ends. Cancelled commitments and excepted days are left out. Raises
    RuleFault for a rule that is not an RFC 5545 RRULE.
    """
    found = [occurrence for commitment in commitments for occurrence in _of_one(commitment, first_day, last_day, zone)]
    return tuple(sorted(found, key=lambda each: (each.starts, each.ends, each.commitment.id)))


def touching(commitments: Iterable[Commitment], first_day: date, last_day: date, zone: str | None = None) -> tuple[Occurrence, ...]:
    """As ``occurrences``, and those that started before ``first_day`` and still run into it."""
    found: list[Occurrence] = []
    for commitment in commitments:
        longest = commitment.ends - commitment.starts + ONE_DAY
        opens = day_bounds(first_day, zone or commitment.zone)[0]
        reaching = _of_one(commitment, first_day - timedelta(days=longest.days + 1), last_day, zone)
        found += [each for each in reaching if each.day >= first_day or each.ends > opens]
    return tuple(sorted(found, key=lambda each: (each.starts, each.ends, each.commitment.id)))


def own_day(occurrence: Occurrence) -> date:
    """The day of ``occurrence`` in its commitment's own zone: what ``except_days`` holds once it is cancelled."""
    return local_day(occurrence.starts, occurrence.commitment.zone)


def _of_one(commitment: Commitment, first_day: date, last_day: date, zone: str | None) -> Iterator[Occurrence]:
    if commitment.cancelled or last_day < first_day:
        return
    seen_from = zone or commitment.zone
    opens, closes = day_bounds(first_day, seen_from)[0], day_bounds(last_day, seen_from)[1]
    for starts, ends in _times(commitment, opens, closes):
        if opens <= starts < closes and not (commitment.except_days and _wall(starts, commitment.zone).date() in commitment.except_days):
            yield Occurrence(commitment, _wall(starts, seen_from).date(), starts, ends)


def _times(commitment: Commitment, opens: datetime, closes: datetime) -> Iterator[tuple[datetime, datetime]]:
    """UTC starts and ends, at least all those that start from ``opens`` to ``closes``."""
    if commitment.rule is None or commitment.starts >= closes:
        yield commitment.starts, commitment.ends
        return
    zone = commitment.zone
    first_wall = _wall(commitment.starts, zone)
    window_opens, window_closes = _wall(opens, zone) - ONE_DAY, _wall(closes, zone) + ONE_DAY
    nominal = nominal_length(commitment, zone)
    for wall in walls(commitment.rule, first_wall, zone, window_opens, window_closes):
        yield (commitment.starts, commitment.ends) if wall == first_wall else _times_at(wall, nominal, commitment)


def _times_at(wall: datetime, nominal: timedelta, commitment: Commitment) -> tuple[datetime, datetime]:
    """UTC start and end of the recurrence that starts at ``wall`` on its own zone's clocks."""
    return times_from(wall, nominal, commitment.zone, commitment.ends - commitment.starts)


def times_from(wall: datetime, nominal: timedelta, zone: str, length: timedelta) -> tuple[datetime, datetime]:
    """UTC start and end of what starts when the clocks of ``zone`` show ``wall``, and ends when they show ``nominal`` more.

    RFC 5545 lets a start with a DURATION keep its nominal length, and a shift
    that ends at six ends at six. Where a clock change would put the end before
    the start, ``length`` passes instead.
    """
    starts, ends = instant_at(wall, zone), instant_at(wall + nominal, zone)
    return starts, ends if ends > starts else starts + length


def nominal_length(timed: Timed, zone: str) -> timedelta:
    """How much more the clocks of ``zone`` show at its end than at its start: of a shift from ten to seven always nine hours."""
    return _wall(timed.ends, zone) - _wall(timed.starts, zone)


def walls(text: str, first_wall: datetime, zone: str, opens: datetime, closes: datetime) -> Iterable[datetime]:
    """What the zone's clocks show at the recurrences of a rule from ``opens`` to ``closes``, both included. Raises RuleFault."""
    weekdays = _weekdays(text)
    if weekdays is None:
        return _read(text, first_wall, zone, opens).between(opens, closes, inc=True)
    return _on_weekdays(weekdays or {first_wall.weekday()}, first_wall.replace(microsecond=0), opens, closes)


@lru_cache(maxsize=256)
def _weekdays(text: str) -> frozenset[int] | None:
    """The weekdays of a rule that says nothing else, from Monday as 0 on; none for that of its start. None for any other rule.

    Most rules are such ones, and a week is walked in a fraction of the time that a rule of every kind takes to begin.
    """
    parts = _parts(text)
    days = parts.get("BYDAY", ",".join(DAY_CODES) if parts["FREQ"] == "DAILY" else None)
    names = [] if days is None else days.split(",")
    says_nothing_else = parts.keys() <= {"FREQ", "BYDAY", "INTERVAL"} and parts["FREQ"] in ("DAILY", "WEEKLY")
    if not says_nothing_else or parts.get("INTERVAL", "1") != "1" or not set(names) <= set(DAY_CODES):
        return None
    return frozenset(map(DAY_CODES.index, names))


def _on_weekdays(weekdays: Set[int], first: datetime, opens: datetime, closes: datetime) -> list[datetime]:
    opens, at = max(first, opens), time(first.hour, first.minute, first.second)
    # The first of the days that ordinals count from, 0001-01-01, is a Monday.
    days = [day for day in range(opens.toordinal(), closes.toordinal() + 1) if (day - 1) % 7 in weekdays]
    found = [datetime.combine(date.fromordinal(day), at) for day in days]
    return [wall for wall in found if opens <= wall <= closes]


# One person's day asks for the same rules some dozens of times.
@lru_cache(maxsize=256)
def _read(text: str, first_wall: datetime, zone: str, wanted_from: datetime | None = None) -> rrule:
    """The rule of ``text``, started no later than two of its periods before ``wanted_from`` where that changes nothing."""
    parts = _parts(text)
    until = parts.get("UNTIL")
    if until is not None:
        parts["UNTIL"] = _local_until(text, until, zone)
    if wanted_from is not None and "COUNT" not in parts:
        first_wall = _brought_near(first_wall, parts, wanted_from)
    try:
        rule = rrulestr(";".join(f"{name}={value}" for name, value in parts.items()), dtstart=first_wall)
    except ValueError as error:
        raise RuleFault(text, str(error)) from error
    assert isinstance(rule, rrule)
    return rule


def _parts(text: str) -> dict[str, str]:
    pairs = [part.partition("=") for part in text.strip().upper().rstrip(";").split(";")]
    parts = {name: value for name, _, value in pairs}
    if len(parts) < len(pairs) or "FREQ" not in parts or not all(name.isalpha() and value for name, value in parts.items()):
        raise RuleFault(text, "expected NAME=VALUE parts, each once, with FREQ among them")
    if re.fullmatch("0+", parts.get("INTERVAL", "1")):
        raise RuleFault(text, "INTERVAL must be at least 1")
    return parts


def _local_until(text: str, until: str, zone: str) -> str:
    """UNTIL on the zone's own clocks, as the rule's start is. A date alone means all of that day."""
    match = re.fullmatch(r"(\d{8})(?:T(\d{6})(Z?))?", until)
    if match is None:
        raise RuleFault(text, f"UNTIL must be a date or a date with a time, not {until}")
    day, at, is_utc = match.groups()
    try:
        wall = datetime.strptime(day + (at or "235959"), "%Y%m%d%H%M%S")
    except ValueError as error:
        raise RuleFault(text, f"UNTIL names no day: {until}") from error
    if is_utc:
        wall = _wall(wall.replace(tzinfo=UTC), zone)
    return wall.strftime("%Y%m%dT%H%M%S")


def _brought_near(first_wall: datetime, parts: dict[str, str], wanted_from: datetime) -> datetime:
    """A later start with the same recurrences from ``wanted_from`` on, so that a rule years old is as quick as a new one.

    Two whole periods are kept in between, because the rule's first one may be
    cut short by its start.
    """
    period = PERIODS.get(parts["FREQ"])
    interval = parts.get("INTERVAL", "1")
    if period is None or not interval.isdecimal() or wanted_from <= first_wall:
        return first_wall
    step = period * int(interval)
    return first_wall + max(0, (wanted_from - first_wall) // step - 2) * step


# The bounds of the same days are asked of every commitment, and the times of one commitment every day.
@lru_cache(maxsize=4096)
def _wall(instant: datetime, zone: str) -> datetime:
    """What the clocks of ``zone`` show at the UTC ``instant``, without the zone."""
    return local(instant, zone).replace(tzinfo=None)
