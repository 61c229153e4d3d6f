"""Calendars by link: read when they are added, and again at set times, with a word only when something changed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.outside.calendars.fetching import NOTHING_KNOWN
from bot.outside.faults import Fault
from storage.records import Carried
from tests.actions.test_calendars import PICNIC, SHIFT, calendar, event
from tests.stage import Stage

LINK = "https://museum.example/shifts.ics"


@pytest.fixture
def stage(tmp_path: Path) -> Iterator[Stage]:
    made = Stage(tmp_path)
    made.links.content[LINK] = calendar(SHIFT)
    yield made
    made.close()


def subscribe(stage: Stage) -> None:
    stage.say(LINK)
    stage.tick()


def test_a_link_is_read_at_once_and_can_be_taken_back(stage: Stage) -> None:
    assert stage.say(f"calendar Front desk {LINK}").text == "Reading museum.example."
    answer = stage.tick()
    assert answer.lines == ["Read Front desk: 1 event.", "In the next two weeks:", "Thu 5 Mar, 13:00–17:00 Museum shift"]
    assert stage.say("calendars").lines[1] == "Front desk: 1 event, from museum.example, read today 09:00"
    stage.tap("Undo")
    assert stage.say("calendars").text.startswith("No calendar yet.")


def test_the_same_link_twice_is_one_calendar(stage: Stage) -> None:
    subscribe(stage)
    assert stage.say(LINK).text == "I read that link already, as “Museum”. Nothing changed."


def test_it_is_read_every_three_hours_with_what_the_server_called_its_version(stage: Stage) -> None:
    subscribe(stage)
    assert stage.at("2026-03-02 18:30").text == ""
    assert len(stage.links.asked) == 4
    assert stage.links.asked[0] == NOTHING_KNOWN
    assert all(asked.etag for asked in stage.links.asked[1:])


def test_what_changed_is_told_in_one_message_and_nothing_when_nothing_did(stage: Stage) -> None:
    subscribe(stage)
    stage.links.content[LINK] = calendar(event("shift", "Museum shift", "20260306T1300", "20260306T1700"), PICNIC)
    answer = stage.at("2026-03-02 12:30")
    assert len(answer.parcels) == 1
    assert answer.lines == [
        "Changed in Museum:",
        "New: Sat 7 Mar, 12:00–15:00 Picnic",
        "Moved: Thu 5 Mar, 13:00–17:00 Museum shift, now Fri 6 Mar, 13:00–17:00",
    ]
    assert stage.at("2026-03-02 15:30").text == ""


def test_a_change_beyond_two_weeks_is_kept_without_a_word(stage: Stage) -> None:
    subscribe(stage)
    stage.links.content[LINK] = calendar(SHIFT, event("far", "Summer fair", "20260605T1300", "20260605T1700"))
    assert stage.at("2026-03-02 12:30").text == ""
    assert "Summer fair" in stage.say("2026-06-05").text


def test_it_is_read_shortly_before_the_morning_message(stage: Stage) -> None:
    subscribe(stage)
    stage.at("2026-03-03 05:45")
    stage.links.content[LINK] = calendar(event("shift", "Museum shift", "20260303T1300", "20260303T1700"))
    texts = [parcel.text for parcel in stage.at("2026-03-03 06:01").parcels]
    assert texts[0].startswith("Changed in Museum:")
    assert "13:00–17:00 Museum shift" in texts[1]


def test_a_change_that_comes_by_night_comes_without_a_sound(stage: Stage) -> None:
    subscribe(stage)
    stage.links.content[LINK] = calendar(event("shift", "Museum shift", "20260306T1300", "20260306T1700"))
    (by_day,) = stage.at("2026-03-02 12:30").parcels
    stage.at("2026-03-02 21:30")
    stage.links.content[LINK] = calendar(SHIFT, PICNIC)
    (by_night,) = stage.at("2026-03-03 05:30").parcels
    assert (by_day.silent, by_night.silent) == (False, True)


def test_a_link_that_fails_later_changes_nothing_and_is_asked_again(stage: Stage) -> None:
    subscribe(stage)
    stage.links.content[LINK] = Fault.NOT_REACHED
    assert stage.at("2026-03-02 12:30").text == ""
    assert "Museum shift" in stage.say("thursday").text
    stage.links.content[LINK] = calendar(SHIFT, PICNIC)
    assert "New: Sat 7 Mar" in stage.at("2026-03-02 15:30").text


def test_a_paused_calendar_is_not_asked_for_and_a_resumed_one_at_once(stage: Stage) -> None:
    subscribe(stage)
    assert stage.say("pause calendar museum").text == "Paused: Museum. Its events stay as they are."
    assert stage.say("calendars").labels == ["Resume Museum"]
    stage.at("2026-03-02 15:30")
    assert len(stage.links.asked) == 1
    stage.say("resume calendar museum")
    stage.tick()
    assert len(stage.links.asked) == 2


def test_a_calendar_removed_meanwhile_is_left_alone(stage: Stage) -> None:
    subscribe(stage)
    stage.say("remove calendar museum")
    assert stage.at("2026-03-02 15:30").text == ""
    assert len(stage.links.asked) == 1


def test_a_calendar_is_read_in_full_before_what_is_kept_runs_out(stage: Stage) -> None:
    subscribe(stage)
    stage.jump("2026-05-02 09:00")
    stage.tick()
    assert stage.links.asked[-1] == NOTHING_KNOWN


def test_a_public_holiday_stands_in_the_recap_of_the_week_before_and_in_its_morning_message(stage: Stage) -> None:
    stage.jump("2026-04-05 17:00")
    stage.tick()
    assert "Mon 6 Apr (Easter Monday): nothing fixed" in stage.at("2026-04-05 18:30").lines
    assert "Public holiday: Easter Monday." in stage.at("2026-04-06 06:30").lines


def test_a_subscription_that_was_refreshed_is_taken_back_by_removing_it(stage: Stage) -> None:
    subscribe(stage)
    button = stage.button("Undo")
    stage.links.content[LINK] = calendar(event("shift", "Museum shift", "20260306T1300", "20260306T1700"), PICNIC)
    stage.at("2026-03-02 12:30")
    assert stage.hear_tap(button).text == "Removed: Museum, with 2 events."
    assert "Museum shift" not in stage.say("week").text
    stage.tap("Undo")
    assert "Museum shift" in stage.say("week").text


def test_what_is_said_to_the_news_of_one_event_marks_that_event(stage: Stage) -> None:
    subscribe(stage)
    stage.links.content[LINK] = calendar(SHIFT, PICNIC)
    (news,) = stage.at("2026-03-02 12:30").parcels
    stage.house.database.outbox.note_and_take([Carried(news.id, "m7")], (), stage.now)
    assert stage.say("mark this outdoors", replies_to="m7").text == "Marked: events with “Picnic” count as outdoors; ahead: 1 event."
