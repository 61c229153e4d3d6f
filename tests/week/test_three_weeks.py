"""Three people with unlike weeks, from the first conversation to payday: what must hold in each."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

import pytest

from tests.week.whole_week import Week, hours_told, played


@dataclass(frozen=True, slots=True)
class Expected:
    """What a script logs from its Monday on, added up by hand; when its messages come, and on which evenings something is open."""

    monday: date
    morning: str
    evening: str
    last_morning: date
    evenings: tuple[date, ...]
    minutes: dict[str, int]
    quiet: tuple[date, ...] = ()


def days(month: int, *numbers: int) -> tuple[date, ...]:
    return tuple(date(2026, month, number) for number in numbers)


WEEKS = {
    "two_shifts": Expected(
        monday=date(2026, 4, 13),
        morning="05:00",
        evening="21:00",
        last_morning=date(2026, 4, 20),
        # Thursday the costume was pushed; Friday all is noted; Sunday nothing is open.
        evenings=days(4, 13, 14, 15, 18),
        minutes={
            # Monday 06:02–14:05 less 30, Tuesday and Wednesday 6–14 less 30, the night of Thursday 21:55–06:10.
            "Laundry": (8 * 60 + 3 - 30) + (480 - 30) + (480 - 30) + (8 * 60 + 15),
            # Wednesday 15:00–21:10 less 15, Saturday 10–18 less 30.
            "Pool": (6 * 60 + 10 - 15) + (480 - 30),
            # Monday 1 h 30, Tuesday's lesson, Thursday 2 h, the dentist, Friday 2 h put right to 1 h 30, the costume, Sunday 3 h and 3 h.
            "Milo": 90 + 45 + 120 + 45 + 90 + (3 * 60 + 20) + 180 + 180,
            # The cellar, Thursday 45 min, Friday 1 h.
            "Household": 90 + 45 + 60,
        },
    ),
    "choir": Expected(
        monday=date(2026, 10, 5),
        morning="07:30",
        evening="21:30",
        last_morning=date(2026, 10, 13),
        # From Wednesday noon to Friday it is quiet; on Friday all is pushed.
        evenings=days(10, 5, 6, 10, 11, 12, 13),
        quiet=days(10, 8),
        minutes={
            # Monday exam, lecture and 14:30–17:00; Tuesday 30 min; Wednesday's lecture; the lab; Friday twice 2 h; mosses; herbarium.
            "Botany": (60 + 90 + 150) + 30 + 90 + 180 + (120 + 120) + 180 + (2 * 60 + 15),
            # Tuesday 18:30–20:45 and 40 min, the concert 19:00–21:30.
            "Choir": (2 * 60 + 15) + 40 + 150,
            # Saturday 10–16 less 30, Sunday 10–16.
            "Garden centre": (360 - 30) + 360,
            "Friends": 25 + 60,
        },
    ),
    "carer": Expected(
        monday=date(2026, 3, 23),
        morning="06:00",
        evening="20:00",
        last_morning=date(2026, 4, 1),
        evenings=days(3, 23, 24, 25, 26, 27, 28, 29, 30),
        minutes={
            # The day centre three times 9:30–15:30, Tuesday 11:40–12:00, the pharmacy, the clinic, and the night of the change:
            # 22:55 to 07:00 are 8 h 05 on the wall, and an hour less in fact.
            "Rosa": 3 * 360 + 20 + 15 + 45 + (8 * 60 + 5 - 60),
            # Monday 2 h 15, Tuesday 3 h, Wednesday 30 min and 1 h as planned, Thursday 8:15–9:45, Friday 16:00–19:20.
            "Translation": (2 * 60 + 15) + 180 + (30 + 60) + 90 + (3 * 60 + 20),
            # Monday 45 min, Tuesday 9:10–11:40 less 10, Saturday 1 h 40.
            "Proofreading": 45 + (150 - 10) + 100,
            "Own time": 60 + 45 + 120,
        },
    ),
}


@pytest.fixture(scope="module", params=sorted(WEEKS))
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def week(name: str, tmp_path_factory: pytest.TempPathFactory) -> Week:
    return played(name, tmp_path_factory.mktemp(name))


def test_every_line_of_the_person_is_understood(week: Week) -> None:
    assert [line["text"] for line in week.lines if line["text"].startswith("I did not understand")] == []


def test_nothing_is_longer_than_a_phone_shows_with_ease(week: Week) -> None:
    said = [line["text"] for line in week.lines if line["from"] == "bot"]
    assert [text for text in said if text.count("\n") >= 20 or len(text) > 4096] == []


def test_the_recap_tells_what_was_logged_added_up_by_hand_and_by_the_database(week: Week, name: str) -> None:
    expected = WEEKS[name]
    sunday = expected.monday + timedelta(days=6)
    told = [line["text"] for line in week.of("recap") if line["at"][:10] == sunday.isoformat()]
    assert len(told) == 1
    hours = hours_told(told[0].partition("\nPay period")[0])
    together = hours.pop("Together")
    assert hours == expected.minutes
    assert together == sum(expected.minutes.values())
    assert week.minutes(expected.monday.isoformat(), sunday.isoformat()) == expected.minutes


def test_one_morning_message_comes_a_local_day_at_its_local_time_and_without_a_sound_before_the_waking_hours(week: Week, name: str) -> None:
    expected = WEEKS[name]
    mornings = [datetime.fromisoformat(line["at"]) for line in week.of("morning")]
    first, last = expected.monday, expected.last_morning
    wanted = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    assert [moment.date() for moment in mornings] == [day for day in wanted if day not in expected.quiet]
    assert {f"{moment:%H:%M}" for moment in mornings} == {expected.morning}
    assert {line["silent"] for line in week.of("morning")} == {name != "carer"}


def test_the_evening_asks_once_a_local_day_where_something_is_open(week: Week, name: str) -> None:
    expected = WEEKS[name]
    evenings = [datetime.fromisoformat(line["at"]) for line in week.of("evening")]
    assert tuple(moment.date() for moment in evenings) == expected.evenings
    assert {f"{moment:%H:%M}" for moment in evenings} == {expected.evening}


def test_a_recap_and_a_week_ahead_come_once_a_sunday_at_six(week: Week, name: str) -> None:
    sunday = WEEKS[name].monday + timedelta(days=6)
    before = sunday - timedelta(days=7)
    wanted = [f"{day}T18:00" for day in (before, sunday) if not (name == "carer" and day == before)]
    for round in ("recap", "week ahead"):
        assert [line["at"][:16] for line in week.of(round)] == wanted


def test_what_the_settings_gave_as_examples_is_gone_once_the_person_has_named_their_own(week: Week, name: str) -> None:
    assert set(week.minutes("2026-01-01", "2026-12-31")) == set(WEEKS[name].minutes)
    (ours,) = [line["text"] for line in week.lines if line["text"].startswith("Your hours go to")]
    names = ours.split("\n")[0].removeprefix("Your hours go to ").rstrip(".").replace(" and ", ", ").split(", ")
    assert set(names) == set(WEEKS[name].minutes)
