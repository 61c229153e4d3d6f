"""The recap in words."""

from __future__ import annotations

from datetime import date, timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.rules.in_the_way import InTheWay
from bot.rules.observations import BelowLeast, CarriedOften, EstimatesMoved, FewerThanUsual, FullestDay, Observation, OverMost
from bot.rules.week_weather import WeekWeather
from bot.voice.manners import Manners
from bot.voice.recap_said import observed, recap
from bot.voice.replies import CategoryHours, JobSoFar, Recap, TasksOfWeek
from storage.records import DateOrder

MONDAY = date(2026, 3, 2)
SUNDAY = date(2026, 3, 8)
MANNERS = Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, SUNDAY)
DAYS = tuple(MONDAY + timedelta(days=number) for number in range(7))


def lines_of(reply: Recap) -> list[str]:
    return recap(reply, MANNERS).text.split("\n")


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        (OverMost("workshop", 90), "1 h 30 more workshop than you want at most."),
        (BelowLeast("learning", 3), "Learning is below what you want at least, 3 weeks in a row."),
        (CarriedOften("finish chapter 4", 4), "Carried 4 times by now: finish chapter 4."),
        (FewerThanUsual(720, 1890), "Fewer hours than usual: 12 h where 31 h 30 are usual."),
        (EstimatesMoved("workshop", 1.0, 1.24), "Workshop tasks now take 1.2 times your estimates; 1.0 a week ago."),
        (FullestDay(MONDAY, 543), "Most hours on Mon 2 Mar: 9 h 03."),
    ],
)
def test_each_observation_is_one_plain_sentence(seen: Observation, words: str) -> None:
    assert observed(seen, MANNERS) == words


def test_what_is_no_observation_has_no_words() -> None:
    with pytest.raises(TypeError):
        observed("rain", MANNERS)


def test_an_empty_week_is_short() -> None:
    assert lines_of(Recap(MONDAY, SUNDAY, (), (), (), ())) == ["Your week, 2–8 March", "No hours logged."]


def test_jobs_paid_from_the_same_day_share_a_line() -> None:
    jobs = (JobSoFar("workshop", MONDAY, 60), JobSoFar("museum", date(2026, 2, 23), 90), JobSoFar("bar", MONDAY, 30))
    assert lines_of(Recap(MONDAY, SUNDAY, (), jobs, (), ()))[2:] == [
        "Pay period since Mon 23 Feb: Museum 1 h 30",
        "Pay period since Mon 2 Mar: Workshop 1 h, Bar 30 min",
    ]


@pytest.mark.parametrize(
    ("tasks", "words"),
    [
        (TasksOfWeek(3, 1, 1), "Closed 3 tasks, dropped 1; 1 went on to a later day."),
        (TasksOfWeek(0, 1, 2), "Dropped 2 tasks; 1 went on to a later day."),
        (TasksOfWeek(0, 0, 2), "Dropped 2 tasks."),
        (TasksOfWeek(0, 2, 0), "2 tasks went on to a later day."),
    ],
)
def test_tasks_are_counted_in_one_line(tasks: TasksOfWeek, words: str) -> None:
    assert lines_of(Recap(MONDAY, SUNDAY, (), (), (), (), tasks))[-1] == words


def test_two_things_in_the_way_are_named_and_more_are_counted() -> None:
    found = (InTheWay("plumber", ("reading", "exercise"), 60), InTheWay("bank", ("reading",), 30), InTheWay("vet", ("reading",), 15))
    said = lines_of(Recap(MONDAY, SUNDAY, (), (), (), (), in_the_way=found))[-1]
    assert said == "In the way: plumber took 1 h from reading and exercise; bank took 30 min from reading; 1 more."


@pytest.mark.parametrize(
    ("weather", "words"),
    [
        (WeekWeather(-1.5, 9.6, (DAYS[1], DAYS[3]), ()), "wet on Tue and Thu, -2 to 10 °C."),
        (WeekWeather(4.0, 4.2, (), DAYS[5:]), "no wet day, 4 °C, Sat and Sun not known."),
        (WeekWeather(None, None, (DAYS[0],), DAYS[1:]), "wet on Mon, known of 1 day only."),
    ],
)
def test_the_weather_of_a_week_fits_one_line_and_says_what_is_not_known(weather: WeekWeather, words: str) -> None:
    assert lines_of(Recap(MONDAY, SUNDAY, (), (), (), (), weather=weather))[-1] == f"Weather as forecast: {words}"


def test_many_categories_are_cut_with_a_word_on_where_the_rest_is() -> None:
    hours = tuple(CategoryHours(f"category {number}", 60, usual=60) for number in range(12))
    lines = lines_of(Recap(MONDAY, SUNDAY, hours, (), (), ()))
    assert lines[1] == "Category 0: 1 h, usually 1 h"
    assert lines[-1] == "and 5 more: hours"
