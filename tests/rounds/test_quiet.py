"""While a person wants quiet nothing comes unasked, and nothing is lost by it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from storage.records import RoundKind, RoundState
from tests.stage import Stage

FRIDAY = "2026-03-06 10:00"


@pytest.fixture
def stage(tmp_path: Path) -> Stage:
    return Stage(tmp_path, at=FRIDAY)


def test_nothing_comes_unasked_until_the_day_and_then_all_does(stage: Stage) -> None:
    stage.say("task order spokes")
    assert stage.say("quiet until monday").lines[0] == (
        "Quiet until Mon 9 Mar: no morning message, nudge or recap before. What you write is answered as ever."
    )
    assert stage.at("2026-03-09 05:59").parcels == ()
    assert [parcel.round for parcel in stage.at("2026-03-09 20:00").parcels] == ["morning", "evening"]


def test_rounds_of_those_days_are_noted_as_kept_quiet_once_each(stage: Stage) -> None:
    stage.say("quiet until monday")
    stage.at("2026-03-09 05:59")
    due = [(RoundKind.EVENING, "2026-03-06"), (RoundKind.MORNING, "2026-03-07"), (RoundKind.RECAP, "2026-03-08")]
    for kind, key in due:
        found = stage.look(lambda desk, kind=kind, key=key: desk.rounds.find(kind, key).state)  # type: ignore[misc]
        assert found is RoundState.KEPT_QUIET


def test_what_they_would_have_carried_is_carried_all_the_same(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("goal finish chapter 4 learning")
    stage.say("quiet")
    assert stage.at("2026-03-09 12:00").parcels == ()
    assert stage.look(lambda desk: [task.title for task in desk.tasks.open_on(date(2026, 3, 9))]) == ["order spokes"]
    assert "finish chapter 4" in stage.say("goals").text


def test_quiet_without_an_end_lasts_until_it_is_ended(stage: Stage) -> None:
    assert stage.say("quiet").lines[0].startswith("Quiet until you write “speak again”:")
    assert stage.at("2026-04-06 12:00").parcels == ()
    assert "Quiet until you write “speak again”" in stage.say("settings").lines
    assert stage.say("speak again").lines[0] == "Speaking again: morning 06:00, evening 20:00, recap Sunday 18:00."
    assert [parcel.round for parcel in stage.at("2026-04-07 06:00").parcels] == ["morning"]


def test_quiet_can_be_taken_back(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("quiet until monday")
    stage.tap("Undo")
    assert [parcel.round for parcel in stage.at("2026-03-06 20:00").parcels] == ["evening"]
    assert not any(line.startswith("Quiet") for line in stage.say("settings").lines)


def test_replies_are_answered_in_quiet_days(stage: Stage) -> None:
    stage.say("quiet")
    assert "Museum" in stage.say("3h museum").text


def test_a_quiet_that_is_over_already_is_refused(stage: Stage) -> None:
    assert stage.say("quiet until 6 march 2026").text == "I could not use that: 2026-03-06."
    assert stage.look(lambda desk: desk.person.quiet_until) is None


def test_changes_in_a_calendar_are_kept_and_not_told_in_quiet_days(stage: Stage) -> None:
    link = "https://museum.example/shifts.ics"
    stage.links.content[link] = calendar("20260310T120000Z")
    stage.say(link)
    stage.tick()
    stage.say("quiet")
    stage.links.content[link] = calendar("20260311T120000Z")
    assert stage.at("2026-03-07 06:00").parcels == ()
    starts = stage.look(lambda desk: [event.starts.day for event in desk.calendar_events.all()])
    assert starts == [11]


def calendar(starts: str) -> bytes:
    event = ("BEGIN:VEVENT", "UID:shift", "SUMMARY:Shift", f"DTSTART:{starts}", "DURATION:PT1H", "END:VEVENT")
    return "\r\n".join(("BEGIN:VCALENDAR", "VERSION:2.0", *event, "END:VCALENDAR", "")).encode()
