"""Settings: times, waking hours, place and zone, quiet, categories."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from datetime import date, time
from functools import cache
from zoneinfo import available_timezones

from bot.actions.new_category import add_category
from bot.actions.refused import refused
from bot.actions.schedule import plan_rounds
from bot.actions.today import today
from bot.actions.whole_days import keep_whole_days
from bot.language.meaning import Set
from bot.language.travel_said import LONGEST as LONGEST_TRAVEL
from bot.rules.quiet import is_quiet
from bot.voice.privacy_said import ERASING, NOTHING
from bot.voice.replies import NothingErased, PlaceKept, PlaceSought, Reply, SettingKept
from storage.desk import Desk
from storage.records import NO_END, ClockStyle, DateOrder, DecimalMark, Look, Person, RoundKind, Weekday


def keep_setting(desk: Desk, said: Set) -> Reply:
    """Keeps one setting; ``value`` is in the normal form that the language gives. Raises Stopped for a value of no use."""
    if said.name == "place":
        desk.rounds.plan(RoundKind.PLACE, f"{desk.now.isoformat()} {said.value}", desk.now, said.value)
        return PlaceSought(said.value)
    if said.name == "category":
        return add_category(desk, said.value)
    if said == NOTHING:
        return NothingErased()
    if said.name == ERASING:
        raise refused("button gone")
    change = CHANGES.get(said.name)
    if change is None:
        raise refused("no such setting", said.name, tuple(name.replace("_", " ") for name in CHANGES))
    try:
        person = change(desk.person, said.value)
    except (ValueError, KeyError) as fault:
        raise refused("bad value", said.value) from fault
    if said.name == "quiet" and said.value != "off" and not is_quiet(person, today(desk)):
        raise refused("bad value", said.value)
    return SettingKept(said.name, said.value, _keep(desk, person), desk.now)


def keep_place(desk: Desk, name: str | None, latitude: float, longitude: float, zone: str) -> Reply:
    """Sets place and zone, in degrees (WGS 84)."""
    person = replace(desk.person, place_name=name, latitude=latitude, longitude=longitude, zone=zone)
    return PlaceKept(_keep(desk, person), desk.now)


def keep_zone_alone(desk: Desk, zone: str) -> Reply:
    """Sets the zone of someone who names no place: one known from before stays only where it lies in that zone. Raises Stopped."""
    before = desk.person
    kept = keep_setting(desk, Set("zone", zone))
    if desk.person.zone == before.zone:
        return kept
    return SettingKept("zone", zone, _keep(desk, replace(desk.person, place_name=None, latitude=None, longitude=None)), desk.now)


def _keep(desk: Desk, person: Person) -> Person:
    before = desk.person.zone
    kept = desk.people.change(person)
    if person.zone != before:
        keep_whole_days(desk, before)
    plan_rounds(desk)
    return kept


def _zone(person: Person, value: str) -> Person:
    """The zone of that name or of that city or island, in capitals or not, its words apart or joined."""
    return replace(person, zone=_zone_names()[value.replace(" ", "_").casefold()])


@cache
def _zone_names() -> dict[str, str]:
    """Every zone by its name, and by the last part of it where that names one alone: azores is Atlantic/Azores."""
    names = available_timezones()
    cities = Counter(_city(name) for name in names)
    return {_city(name): name for name in names if cities[_city(name)] == 1} | {name.casefold(): name for name in names}


def _city(zone: str) -> str:
    return zone.rpartition("/")[2].casefold()


def _waking(person: Person, value: str) -> Person:
    start, end = (time.fromisoformat(part) for part in value.split("-"))
    if start == end:
        raise ValueError(value)
    return replace(person, waking_start=start, waking_end=end)


def _free_share(person: Person, value: str) -> Person:
    share = int(value)
    if not 0 <= share <= 90:
        raise ValueError(value)
    return replace(person, free_share=share)


def _quiet(person: Person, value: str) -> Person:
    ends = {"off": None, "on": NO_END}
    return replace(person, quiet_until=ends[value] if value in ends else date.fromisoformat(value))


def _travel(person: Person, value: str) -> Person:
    minutes = int(value)
    if not 0 <= minutes <= LONGEST_TRAVEL:
        raise ValueError(value)
    return replace(person, travel_minutes=minutes)


def _pictures(person: Person, value: str) -> Person:
    """Whether one comes with the recap, or how they look."""
    if value in ("on", "off"):
        return replace(person, pictures=value == "on")
    return replace(person, look=Look(value))


CHANGES: dict[str, Callable[[Person, str], Person]] = {
    "morning": lambda person, value: replace(person, morning_at=time.fromisoformat(value)),
    "evening": lambda person, value: replace(person, evening_at=time.fromisoformat(value)),
    "recap": lambda person, value: replace(person, recap_at=time.fromisoformat(value)),
    "waking": _waking,
    "week_starts": lambda person, value: replace(person, week_starts=Weekday[value.upper()]),
    "dates": lambda person, value: replace(person, date_order=DateOrder(value)),
    "clock": lambda person, value: replace(person, clock_style=ClockStyle(value)),
    "zone": _zone,
    "free_share": _free_share,
    "travel": _travel,
    "pictures": _pictures,
    "decimals": lambda person, value: replace(person, decimals=DecimalMark(value)),
    "holidays": lambda person, value: replace(person, holidays={"on": True, "off": False}[value]),
    "quiet": _quiet,
}
