"""Payday's eve: told where it is wanted, once, at the evening's time whatever the clocks do."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from storage.records import RoundKind
from tests.stage import Answer, Stage


@pytest.fixture
def stage(tmp_path: Path) -> Iterator[Stage]:
    made = Stage(tmp_path, at="2026-03-02 21:00")
    made.say("payday museum 5 days after")
    made.say("rate museum 14.50 from 1 march")
    yield made
    made.close()


def eves(answer: Answer) -> list[str]:
    return [parcel.text for parcel in answer.parcels if parcel.round == RoundKind.PAYDAY]


def test_nothing_is_told_unless_it_is_wanted(stage: Stage) -> None:
    stage.say("2h museum")
    assert eves(stage.at("2026-03-21 09:00")) == []


def test_the_eve_is_told_once_with_what_is_paid_and_whether_it_was_handed_in(stage: Stage) -> None:
    stage.say("payday reminder on")
    stage.say("2h museum")
    assert eves(stage.at("2026-03-19 19:59")) == []
    assert eves(stage.at("2026-03-19 20:00")) == [
        "Payday on Friday 20 March\n"
        "Museum, 2–15 March: 2 h to be paid, 29.00 EUR estimated before deductions.\n"
        "The museum timesheet is not marked as handed in."
    ]
    assert stage.tap("Timesheet museum").lines[1] == "2–15 March"
    stage.crash()
    assert eves(stage.at("2026-03-20 19:00")) == []


def test_what_was_handed_in_is_not_asked_for(stage: Stage) -> None:
    stage.say("payday reminder museum on")
    stage.say("2h museum")
    stage.say("handed in museum")
    (eve,) = eves(stage.at("2026-03-19 20:00"))
    assert "not marked" not in eve


def test_a_period_without_hours_is_passed_over(stage: Stage) -> None:
    stage.say("payday reminder on")
    assert eves(stage.at("2026-03-21 09:00")) == []


def test_it_follows_the_evening_and_is_right_across_a_clock_change(stage: Stage) -> None:
    """Brussels loses an hour on 29 March 2026 (tzdata, Europe/Brussels); the eve of 3 April is told at 21:00 summer time."""
    stage.say("payday reminder on")
    stage.say("evening 21:00")
    stage.jump("2026-03-17 09:00")
    stage.tick()
    stage.say("2h museum")
    told = [parcel for parcel in stage.at("2026-04-03 23:00").parcels if parcel.round == RoundKind.PAYDAY]
    assert [parcel.written.astimezone(stage.zone).isoformat() for parcel in told] == ["2026-04-02T21:00:00+02:00"]


def test_off_and_an_undo_of_off_are_heeded(stage: Stage) -> None:
    stage.say("payday reminder on")
    stage.say("2h museum")
    stage.say("payday reminder off")
    assert eves(stage.at("2026-03-18 09:00")) == []
    stage.say("undo")
    assert len(eves(stage.at("2026-03-20 09:00"))) == 1


def test_an_eve_that_comes_late_says_so_and_one_of_yesterday_is_left_out(stage: Stage) -> None:
    stage.say("payday reminder on")
    stage.say("2h museum")
    stage.at("2026-03-18 21:00")
    stage.jump("2026-03-19 22:30")
    assert "Late, as I was not running" in eves(stage.tick())[0]
    stage.say("16 march 2h museum")
    stage.at("2026-04-01 21:00")
    stage.jump("2026-04-03 01:00")
    assert eves(stage.tick()) == []
