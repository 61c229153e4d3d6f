"""The model: what one person's database must hold after what was heard, worked out without the program."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import TypeAlias
from zoneinfo import ZoneInfo

GETS_UP = time(6)
PAID = frozenset({"workshop", "museum"})
LONGEST_CLOCK = timedelta(hours=16)


@dataclass(frozen=True, slots=True)
class Logs:
    """So many minutes in a category, today."""

    category: str
    minutes: int


@dataclass(frozen=True, slots=True)
class AddsTask:
    title: str


@dataclass(frozen=True, slots=True)
class ClocksIn:
    """In the one category that the person clocks."""


@dataclass(frozen=True, slots=True)
class ClocksOut:
    """Whatever runs."""


@dataclass(frozen=True, slots=True)
class TakesBackLatest:
    """By writing so."""


@dataclass(frozen=True, slots=True)
class TakesBack:
    """By the button under the message that the parcel became."""

    parcel_id: int


@dataclass(frozen=True, slots=True)
class Looks:
    """Changes nothing."""


Deed: TypeAlias = Logs | AddsTask | ClocksIn | ClocksOut | TakesBackLatest | TakesBack | Looks


@dataclass(frozen=True, slots=True)
class Hours:
    """Hours kept; ``starts`` and ``ends`` in UTC when they came from the clock."""

    category: str
    day: date
    minutes: int
    starts: datetime | None = None
    ends: datetime | None = None


Value: TypeAlias = Hours | str | datetime | None


@dataclass(slots=True, eq=False)
class Entry:
    """What one thing heard changed: of each place its value before and after."""

    message_key: str
    changes: dict[str, tuple[Value, Value]]
    undoes: Entry | None = None
    replaces: Entry | None = None
    is_in_force: bool = True


@dataclass(slots=True)
class Ledger:
    """One person's account. ``clocked`` is the category of their clock; ``did_nothing`` says that the last thing heard changed
    nothing, so that a written undo may be about nothing."""

    zone: ZoneInfo
    clocked: str
    heard: int = 0
    did_nothing: bool = False
    places: dict[str, Value] = field(default_factory=dict)
    entries: list[Entry] = field(default_factory=list)
    answered: dict[int, Entry] = field(default_factory=dict)

    @property
    def hours(self) -> Counter[tuple[str, int]]:
        """Each kept stint as category and minutes, and how often."""
        return Counter((value.category, value.minutes) for value in self.places.values() if isinstance(value, Hours))

    @property
    def titles(self) -> Counter[str]:
        """The titles of the tasks there are."""
        return Counter(value for value in self.places.values() if isinstance(value, str))

    @property
    def runs_since(self) -> datetime | None:
        """When the running clock was started."""
        value = self.places.get("clock")
        return value if isinstance(value, datetime) else None

    def minutes_on(self, day: date, category: str) -> int:
        """The sum of a category on a local day."""
        kept = [value for value in self.places.values() if isinstance(value, Hours)]
        return sum(hours.minutes for hours in kept if hours.day == day and hours.category == category)

    def hear(self, deed: Deed, message_key: str, is_edit: bool, now: datetime, parcel_id: int) -> None:
        """Takes in what the program has handled just now; ``parcel_id`` is its answer's."""
        self.heard += 1
        entry = self._edit(deed, message_key, now) if is_edit else self._do(deed, message_key, now)
        self.did_nothing = entry is None
        if entry is not None:
            self.answered[parcel_id] = entry

    def _do(self, deed: Deed, message_key: str, now: datetime) -> Entry | None:
        if isinstance(deed, TakesBackLatest):
            mine = [entry for entry in self.entries if entry.is_in_force and entry.undoes is None]
            return self._take_back(mine[-1]) if mine else None
        if isinstance(deed, TakesBack):
            return self._take_back(self.answered[deed.parcel_id]) if deed.parcel_id in self.answered else None
        if self._of(message_key) is not None:
            # Its own edit came first; what it said before counts no more.
            return None
        changes = self._changes(deed, now)
        return self._keep(Entry(message_key, changes)) if changes else None

    def _edit(self, deed: Deed, message_key: str, now: datetime) -> Entry | None:
        earlier = self._of(message_key)
        if earlier is None or not earlier.is_in_force:
            changes = self._changes(deed, now)
            return self._keep(Entry(message_key, changes)) if changes else None
        assert isinstance(deed, Logs)
        ((place, (_, before)),) = earlier.changes.items()
        if self._is_told_before(deed, now, besides=place):
            return None
        entry = Entry(message_key, {place: (before, self._logged(deed, now))}, replaces=earlier)
        self._mark_undone(earlier, in_its_place=True)
        return self._keep(entry)

    def _of(self, message_key: str) -> Entry | None:
        own = [entry for entry in self.entries if entry.message_key == message_key and entry.undoes is None]
        return max(own, key=lambda entry: (entry.is_in_force, self.entries.index(entry)), default=None)

    def _changes(self, deed: Deed, now: datetime) -> dict[str, tuple[Value, Value]]:
        makes: dict[type[Deed], Callable[[], dict[str, tuple[Value, Value]]]] = {
            ClocksIn: lambda: {} if self.runs_since else {"clock": (None, now.replace(second=0, microsecond=0))},
            ClocksOut: lambda: self._clock_out(now),
            Looks: dict,
        }
        if isinstance(deed, Logs):
            if self._is_told_before(deed, now):
                return {}
            return {f"hours {len(self.entries)}": (None, self._logged(deed, now))}
        if isinstance(deed, AddsTask):
            return {f"task {len(self.entries)}": (None, deed.title)}
        return makes[type(deed)]()

    def _clock_out(self, now: datetime) -> dict[str, tuple[Value, Value]]:
        starts, ends = self.runs_since, now.replace(second=0, microsecond=0)
        if starts is None or ends <= starts or ends - starts > LONGEST_CLOCK or self._overlaps(starts, ends):
            return {}
        hours = Hours(self.clocked, starts.astimezone(self.zone).date(), int((ends - starts).total_seconds()) // 60, starts, ends)
        return {"clock": (starts, None), f"hours {len(self.entries)}": (None, hours)}

    def _overlaps(self, starts: datetime, ends: datetime) -> bool:
        kept = [value for value in self.places.values() if isinstance(value, Hours)]
        return any(each.starts and each.ends and each.starts < ends and starts < each.ends for each in kept)

    def _is_told_before(self, deed: Logs, now: datetime, besides: str = "") -> bool:
        """Whether it is asked if those are hours that the category has that day already.

        They may be where all have times and come to the same; and of the day before where either holds.
        """
        day = self._day_lived(deed, now)
        there = [value for place, value in self.places.items() if isinstance(value, Hours) and place != besides]
        mine = [each for each in there if (each.day, each.category) == (day, deed.category)]
        over, timed = day < now.astimezone(self.zone).date(), all(each.starts for each in mine)
        same = sum(each.minutes for each in mine) == deed.minutes
        return bool(mine) and ((same and (over or timed)) or (over and timed and deed.category in PAID))

    def _logged(self, deed: Logs, now: datetime) -> Hours:
        return Hours(deed.category, self._day_lived(deed, now), deed.minutes)

    def _day_lived(self, deed: Logs, now: datetime) -> date:
        """Today; before getting up the day before, for more time than there was since midnight."""
        local = now.astimezone(self.zone)
        early = local.time() < GETS_UP and local.hour * 60 + local.minute < deed.minutes
        return local.date() - timedelta(days=int(early))

    def _take_back(self, entry: Entry) -> Entry | None:
        if not entry.is_in_force or any(self.places.get(place) != after for place, (_, after) in entry.changes.items()):
            return None
        self._mark_undone(entry)
        return self._keep(Entry("", {place: (after, before) for place, (before, after) in entry.changes.items()}, undoes=entry))

    def _keep(self, entry: Entry) -> Entry:
        self.entries.append(entry)
        self.places |= {place: after for place, (_, after) in entry.changes.items()}
        return entry

    def _mark_undone(self, entry: Entry, *, in_its_place: bool = False) -> None:
        entry.is_in_force = False
        if entry.undoes:
            self._mark_in_force(entry.undoes)
        if entry.replaces and not in_its_place:
            self._mark_in_force(entry.replaces)

    def _mark_in_force(self, entry: Entry) -> None:
        entry.is_in_force = True
        if entry.undoes:
            self._mark_undone(entry.undoes)
        if entry.replaces:
            self._mark_undone(entry.replaces, in_its_place=True)
