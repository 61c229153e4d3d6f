"""The month's view, its recap, and hours of long spans."""

from __future__ import annotations

from datetime import date

import pytest

from storage.records import Horizon, RoundKind
from tests.stage import Stage


@pytest.fixture
def march(stage: Stage) -> Stage:
    for text in ("20 february 2h workshop", "27 february 1h museum", "3h workshop"):
        stage.say(text)
    for title in ("paint the shed home", "sort photos"):
        stage.say(f"month goal {title}")
    return stage


def test_the_month_stands_beside_as_many_days_of_the_month_before(march: Stage) -> None:
    march.at("2026-03-20 12:00")
    assert march.say("month").lines[:5] == [
        "March 2026",
        "Workshop: 3 h, 1 h more",
        "Compared with 1–20 February.",
        "",
        "Goals that wait",
    ]


def test_the_fullest_days_of_a_month_are_named(march: Stage) -> None:
    march.say("appt 20 march 9-10 dentist")
    march.say("appt 20 march 11-12 bank")
    assert march.say("month").lines[-1] == "Fullest days: Fri 20 Mar (2 commitments)."


def test_the_recap_of_the_month_comes_on_its_last_day(march: Stage) -> None:
    march.say("done photos")
    said = march.at("2026-03-31 18:00")
    (recap,) = [parcel for parcel in said.parcels if parcel.round == "month"]
    assert recap.text.split("\n") == [
        "Your month, March 2026",
        "Workshop: 3 h, 1 h more",
        "Museum: 0 min, 1 h less",
        "Together: 3 h, the same",
        "Compared with February 2026.",
        "",
        "Goals met: sort photos.",
        "Not met yet; left untouched, they carry over by themselves:",
        "1 paint the shed",
    ]
    assert [[button.label for button in row] for row in recap.buttons] == [["Carry 1", "Next week 1", "Drop 1"]]


def test_hours_of_the_month_that_are_still_to_come_are_told_until_they_are_logged(march: Stage) -> None:
    march.say("appt 31 march 19-2 museum shift museum")
    march.say("appt 1 april 9-17 workshop shift workshop")
    march.at("2026-03-31 17:00")
    assert "Still to come: museum 7 h." in march.at("2026-03-31 18:00").text
    march.jump("2026-03-31 23:00")
    assert "Still to come: museum 7 h." in march.say("recap march").lines
    march.jump("2026-04-01 01:00")
    march.say("yesterday museum 19-0:30")
    assert "Still to come" not in march.say("recap march").text


def open_goals(stage: Stage, horizon: Horizon, period: date) -> object:
    return stage.look(lambda desk: [(goal.title, goal.carried) for goal in desk.goals.open_for(horizon, period)])


def test_a_goal_of_the_month_is_carried_to_the_next_once(march: Stage) -> None:
    march.at("2026-03-31 18:00")
    assert "Carried" in march.tap("Carry all").text
    april = [("paint the shed", 1), ("sort photos", 1)]
    assert open_goals(march, Horizon.MONTH, date(2026, 4, 1)) == april
    assert "already" in march.say("push photos to month").text
    march.at("2026-04-01 12:00")
    assert open_goals(march, Horizon.MONTH, date(2026, 4, 1)) == april


def test_left_untouched_it_carries_with_the_first_morning(march: Stage) -> None:
    march.at("2026-04-01 06:00")
    assert open_goals(march, Horizon.MONTH, date(2026, 4, 1)) == [("paint the shed", 1), ("sort photos", 1)]


def test_a_goal_of_the_month_may_be_taken_into_next_week(march: Stage) -> None:
    march.at("2026-03-31 18:00")
    march.tap("Next week 1")
    assert open_goals(march, Horizon.WEEK, date(2026, 4, 6)) == [("paint the shed", 0)]


def test_after_the_recap_a_new_goal_is_the_next_months(march: Stage) -> None:
    march.at("2026-03-31 18:00")
    march.say("month goal tidy the attic home")
    assert open_goals(march, Horizon.MONTH, date(2026, 4, 1)) == [("tidy the attic", 0)]
    assert "Home: tidy the attic" in march.say("goals").text.replace("Personal", "Home")


def test_a_month_that_ends_on_a_sunday_has_both_recaps(stage: Stage) -> None:
    stage.at("2026-05-30 12:00")
    rounds = [parcel.round for parcel in stage.at("2026-05-31 18:30").parcels]
    assert sorted(map(str, rounds[-3:])) == ["month", "recap", "week ahead"]


def test_someone_of_before_gets_the_months_recap_planned_with_the_next_message(stage: Stage) -> None:
    def forget(desk: object) -> None:
        for waiting in desk.rounds.waiting(RoundKind.MONTH):  # type: ignore[attr-defined]
            desk.rounds.claim(waiting.id)  # type: ignore[attr-defined]

    stage.look(forget)
    stage.at("2026-03-31 12:00")
    assert "month" not in [parcel.round for parcel in stage.at("2026-03-31 19:00").parcels]
    assert "month" in [parcel.round for parcel in stage.at("2026-04-30 19:00").parcels]


def test_a_recap_of_the_month_comes_late_until_the_next_noon(stage: Stage) -> None:
    stage.at("2026-03-31 12:00")
    stage.jump("2026-04-01 09:00")
    (late,) = [parcel for parcel in stage.tick().parcels if parcel.round == "month"]
    assert late.text.split("\n")[1] == "Late, as I was not running earlier."


def test_a_year_is_told_by_category_and_by_month(march: Stage) -> None:
    assert march.say("hours 2026").lines == [
        "Hours, 2026",
        "Workshop: 5 h",
        "Museum: 1 h",
        "Together: 6 h",
        "",
        "Feb: 3 h, Mar: 3 h",
    ]
    assert march.say("hours 2026 museum").lines == ["Museum, 2026", "Museum: 1 h", "", "Feb: 1 h"]


def test_several_years_are_told_by_the_year_and_beside_those_before(march: Stage) -> None:
    march.say("5 may 2024 1h workshop")
    march.say("5 may 2019 4h workshop")
    lines = march.say("hours 2023 to 2026").lines
    assert lines[1] == "Workshop: 6 h, 2 h more"
    assert lines[-1] == "2024: 1 h, 2026: 6 h"


def test_a_span_across_the_new_year_names_the_years_of_its_months(march: Stage) -> None:
    march.say("28 december 2025 1h home")
    assert march.say("hours november to march").lines[-1] == "Dec 2025: 1 h, Feb 2026: 3 h, Mar 2026: 3 h"
