"""What is particular about hours: left-out categories, clock changes, midnight, open readings."""

from __future__ import annotations

from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.context import Context
from bot.language.meaning import Ask, Log, SaidStint, Unknown
from bot.language.understand import understand
from tests.language.person import at, clocked_in, planning


def _stint(text: str, context: Context) -> SaidStint:
    meaning = understand(text, context)
    assert isinstance(meaning, Log), meaning
    assert len(meaning.stints) == 1
    return meaning.stints[0]


def test_hours_without_a_category_are_for_the_job_that_is_clocked_in_and_say_so() -> None:
    stint = _stint("2h", clocked_in("museum"))
    assert (stint.category, stint.minutes, stint.why) == ("museum", 120, "clocked in")


def test_hours_without_a_category_are_for_what_was_planned_at_those_hours() -> None:
    stint = _stint("9-11", planning(("workshop", "08:30", "12:00"), ("museum", "13:00", "17:00")))
    assert (stint.category, stint.why) == ("workshop", "planned")


def test_hours_planned_then_come_before_the_clock_that_runs_now() -> None:
    planned = planning(("museum", "09:00", "11:00"))
    both = Context(planned.now, planned.categories, planned=planned.planned, clocked_in="workshop")
    assert _stint("9-11", both).category == "museum"
    assert _stint("2h", both).category == "workshop"


def test_an_amount_without_a_category_is_for_the_plan_of_this_moment_or_the_only_one_so_far() -> None:
    assert _stint("1h", planning(("museum", "11:00", "13:00"), ("workshop", "08:00", "11:00"))).category == "museum"
    assert _stint("1h", planning(("workshop", "08:00", "11:00"), ("museum", "13:00", "17:00"))).category == "workshop"


@pytest.mark.parametrize("text", ["2h", "9-11", "yesterday 2h"])
def test_where_no_category_is_sure_every_one_is_a_choice_and_jobs_come_first(text: str) -> None:
    meaning = understand(text, at())
    assert isinstance(meaning, Ask)
    logs = [choice for choice in meaning.choices if isinstance(choice, Log)]
    assert [log.stints[0].category for log in logs] == ["workshop", "museum", "learning", "family", "home"]
    assert {log.stints[0].why for log in logs} == {None}


def test_the_clock_says_nothing_of_another_day() -> None:
    assert isinstance(understand("yesterday 2h", clocked_in()), Ask)


def test_an_amount_that_is_still_to_come_is_no_log_without_its_category() -> None:
    assert isinstance(understand("2 more hours", clocked_in()), Unknown)


# The European Union changes its clocks at 01:00 UTC on the last Sundays of March and October:
# Directive 2000/84/EC, articles 2 and 3. A night shift is an hour shorter in spring, an hour longer in autumn.
@pytest.mark.parametrize(
    ("day", "minutes"), [("2026-03-28", 7 * 60), ("2026-10-24", 9 * 60), ("2026-06-13", 8 * 60)], ids=["spring", "autumn", "summer"]
)
def test_a_night_shift_over_a_clock_change_is_as_long_as_it_was(day: str, minutes: int) -> None:
    stint = _stint(f"{day} 22:00-06:00 museum", at("2026-12-01T12:00"))
    assert (stint.day, stint.minutes) == (date.fromisoformat(day), minutes)


def test_an_amount_from_a_time_on_ends_when_it_has_really_passed() -> None:
    stint = _stint("2026-03-28 3h museum at 23:30", at("2026-12-01T12:00"))
    assert (stint.start, stint.end, stint.minutes) == (time(23, 30), time(3, 30), 180)


def test_hours_over_midnight_that_have_ended_by_now_began_yesterday() -> None:
    stint = _stint("22-2 museum", at("2026-03-03T09:00"))
    assert (stint.day, stint.start, stint.end, stint.minutes) == (date(2026, 3, 2), time(22), time(2), 240)


def test_hours_of_a_day_to_come_are_a_commitment_unless_they_are_told_as_spent() -> None:
    assert not isinstance(understand("museum tomorrow 13-17", at()), Log)
    assert _stint("log museum tomorrow 13-17", at()).day == date(2026, 3, 4)


@pytest.mark.parametrize(
    "text",
    [
        "2h workshop 3h",
        "9-12 workshop 2h less",
        "workshop 9-12 for 5h",
        "30m museum less 45m",
        "2h hammock",
        "2h bake",
        "2h workshop?",
        "the workshop took 2h",
        "2h workshop 13-17 9-12 museum",
        "3h workshop yesterday tomorrow",
    ],
)
def test_what_contradicts_itself_or_tells_of_something_else_is_not_logged(text: str) -> None:
    assert isinstance(understand(text, at()), Unknown)


def test_an_amount_that_agrees_with_its_hours_may_be_said_beside_them() -> None:
    assert _stint("workshop 9-12 3h", at()).minutes == 180
    assert _stint("workshop 9-12 2h30 less 30m", at()).minutes == 150


def test_two_categories_as_near_are_asked_about() -> None:
    meaning = understand("2h garden with the kids", at())
    assert isinstance(meaning, Ask)
    assert [choice.stints[0].category for choice in meaning.choices if isinstance(choice, Log)] == ["home", "family"]


def _forms(minutes: int) -> list[str]:
    hours, rest = divmod(minutes, 60)
    return [
        f"{minutes}m",
        f"{minutes} minutes",
        f"{hours}h{rest:02}",
        f"{hours}h {rest}m",
        f"{hours} hours {rest} min",
        f"{hours}:{rest:02}",
        f"{hours} hours and {rest} minutes",
    ]


@given(st.lists(st.integers(61, 600).filter(lambda minutes: minutes % 60), min_size=1, max_size=4))
def test_a_total_of_hours_is_the_same_in_whatever_form_its_amounts_are_written(amounts: list[int]) -> None:
    for form in range(len(_forms(61))):
        text = ", ".join(f"{_forms(minutes)[form]} workshop" for minutes in amounts)
        meaning = understand(text, at())
        assert isinstance(meaning, Log), text
        assert sum(stint.minutes for stint in meaning.stints) == sum(amounts), text


def test_before_getting_up_more_time_than_has_passed_since_midnight_was_spent_the_day_before() -> None:
    night = at("2026-03-03T01:36")
    assert _stint("museum 7.5h", night).day == date(2026, 3, 2)
    assert _stint("20m museum", night).day == date(2026, 3, 3)
    assert _stint("today museum 7.5h", night).day == date(2026, 3, 3)
    assert _stint("museum 10h", at("2026-03-03T08:00")).day == date(2026, 3, 3)
