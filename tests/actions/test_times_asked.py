"""When something takes place, and when the person works."""

from __future__ import annotations

import pytest

from tests.stage import Stage


@pytest.fixture
def planned(stage: Stage) -> Stage:
    """Tuesday morning, with shifts at two jobs and something that is no work."""
    stage.at("2026-03-03 10:00")
    for said in ("appt museum shift thu 13-17", "workshop every mon and wed 8-12", "swimming thursdays 1630", "appt fri 10-11 dentist"):
        stage.say(said)
    return stage


def test_shifts_of_the_week_ahead_are_told_one_a_line(planned: Stage) -> None:
    assert planned.say("when do i work").lines == [
        "Wed 4 Mar, 08:00–12:00 workshop.",
        "Thu 5 Mar, 13:00–17:00 museum shift.",
        "Mon 9 Mar, 08:00–12:00 workshop.",
    ]


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("when do i work thursday", "Thu 5 Mar, 13:00–17:00 museum shift."),
        ("when am i at the museum?", "Thu 5 Mar, 13:00–17:00 museum shift."),
        ("do i work tomorrow", "Wed 4 Mar, 08:00–12:00 workshop, every Monday and Wednesday."),
        ("when is swimming", "Thu 5 Mar, 16:30–17:30 swimming, every Thursday."),
        ("when is swimming next week", "Thu 12 Mar, 16:30–17:30 swimming, every Thursday."),
        ("when is my next shift?", "Thu 5 Mar, 13:00–17:00 museum shift."),
        ("what time is the dentist", "Fri 6 Mar, 10:00–11:00 dentist."),
    ],
)
def test_what_is_asked_about_is_told_and_nothing_else(planned: Stage, asked: str, told: str) -> None:
    assert planned.say(asked).lines == [told]


def test_where_there_is_none_the_next_is_told(planned: Stage) -> None:
    assert planned.say("when do i work friday").lines == [
        "Nothing is planned for work on Fri 6 Mar.",
        "Next: Wed 4 Mar, 08:00–12:00 workshop, every Monday and Wednesday.",
    ]
    assert planned.say("when is swimming today").lines[0] == "Nothing is planned for Swimming today."
    assert planned.say("when am i at the museum next week").lines == [
        "Nothing is planned for Museum in 9–15 March.",
        "Next: Thu 5 Mar, 13:00–17:00 museum shift.",
    ]


def test_what_is_over_is_not_told_and_what_is_under_way_is(planned: Stage) -> None:
    planned.jump("2026-03-05 14:00")
    assert planned.say("when is the museum shift").lines == ["Thu 5 Mar, 13:00–17:00 museum shift."]
    planned.jump("2026-03-05 18:00")
    assert planned.say("when is swimming").lines == ["Thu 12 Mar, 16:30–17:30 swimming, every Thursday."]
    assert planned.say("when is the museum shift").text == "I find no commitment “museum shift” from today on."


def test_of_many_times_the_first_are_told_and_the_others_counted(stage: Stage) -> None:
    stage.say("workshop every day 10-12")
    answer = stage.say("when do i work this month")
    assert len(answer.lines) == 13
    assert answer.lines[-1] == "And 18 more."
