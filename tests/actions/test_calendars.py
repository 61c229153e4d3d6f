"""Calendars of others in the person's week: sent, read by link, marked, and told of when they change."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.actions import calendars
from bot.outside.faults import Fault
from tests.stage import Stage

SAMPLE = (Path(__file__).parents[2] / "sample_config" / "calendar.ics").read_bytes()


def event(uid: str, title: str, starts: str, ends: str, *more: str) -> str:
    """One event; times are local ones of no zone, as 20260305T0900."""
    return "\r\n".join(("BEGIN:VEVENT", f"UID:{uid}", f"SUMMARY:{title}", f"DTSTART:{starts}00", f"DTEND:{ends}00", *more, "END:VEVENT"))


def calendar(*events: str, name: str = "Museum") -> bytes:
    """A calendar with a name of its own."""
    lines = ("BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Tests//EN", f"X-WR-CALNAME:{name}", *events, "END:VCALENDAR", "")
    return "\r\n".join(lines).encode()


SHIFT = event("shift", "Museum shift", "20260305T1300", "20260305T1700")
PICNIC = event("picnic", "Picnic", "20260307T1200", "20260307T1500")


def test_a_file_is_read_back_with_what_lies_in_the_next_two_weeks(stage: Stage) -> None:
    answer = stage.send("calendar.ics", SAMPLE)
    assert answer.lines == [
        "Read calendar: 5 entries, 62 events in all.",
        "In the next two weeks:",
        "Tue 3 Mar, 12:45–13:00 Front desk briefing",
        "Wed 4 Mar, 08:30–09:15 Dentist",
        "Fri 6 Mar, 10:00–10:30 Delivery of wheels",
        "Sat 7 Mar, 14:00–16:00 School play",
        "Sun 8 Mar, all day Grandmother's birthday",
        "and 1 more",
    ]
    assert answer.labels == ["Undo"]


def test_its_events_stand_in_the_week_and_leave_with_undo(stage: Stage) -> None:
    empty = stage.say("week").text
    stage.send("shifts.ics", calendar(SHIFT))
    assert "Thu 5 Mar: afternoon 13:00–17:00 Museum shift" in stage.say("week").lines
    stage.tap("Undo")
    assert stage.say("week").text == empty


def test_events_take_their_hours_unless_they_block_none(stage: Stage) -> None:
    free = stage.say("thursday").lines[-1]
    stage.send("a.ics", calendar(event("open", "Open day", "20260305T0900", "20260305T1200", "TRANSP:TRANSPARENT")))
    assert stage.say("thursday").lines[-1] == free
    stage.send("b.ics", calendar(SHIFT, name="Other"))
    assert stage.say("thursday").lines[-1] == "Free: 11 h; 2 h 12 is kept for what comes up."


def test_an_event_of_several_whole_days_is_on_each_of_them(stage: Stage) -> None:
    days = "\r\n".join(
        ("BEGIN:VEVENT", "UID:fair", "SUMMARY:Fair", "DTSTART;VALUE=DATE:20260301", "DTEND;VALUE=DATE:20260305", "END:VEVENT")
    )
    stage.send("fair.ics", calendar(days))
    lines = stage.say("week").lines
    assert [line for line in lines if "Fair" in line] == [f"{day} Mar: Fair all day" for day in ("Mon 2", "Tue 3", "Wed 4")]


def test_the_same_event_of_a_file_and_another_is_one(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    stage.send("b.ics", calendar(SHIFT, PICNIC, name="Family"))
    assert stage.say("thursday").text.count("Museum shift") == 1
    assert stage.say("calendars").lines == ["Calendars", "Museum: 1 event, from a file", "Family: 2 events, from a file"]


def test_a_cancelled_event_is_left_out(stage: Stage) -> None:
    stage.send("a.ics", calendar(event("shift", "Museum shift", "20260305T1300", "20260305T1700", "STATUS:CANCELLED")))
    assert "Museum shift" not in stage.say("thursday").text


def test_a_file_sent_again_tells_what_is_new_moved_and_gone(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT, PICNIC))
    moved = event("shift", "Museum shift", "20260306T1300", "20260306T1700")
    answer = stage.send("a.ics", calendar(moved, event("school", "School play", "20260310T1400", "20260310T1600")))
    assert answer.lines == [
        "Changed in Museum:",
        "New: Tue 10 Mar, 14:00–16:00 School play",
        "Moved: Thu 5 Mar, 13:00–17:00 Museum shift, now Fri 6 Mar, 13:00–17:00",
        "Gone: Sat 7 Mar, 12:00–15:00 Picnic",
    ]
    assert "Museum shift" not in stage.say("thursday").text
    stage.say("undo")
    assert "Museum shift" in stage.say("thursday").text
    assert stage.send("a.ics", calendar(SHIFT, PICNIC)).text == "Read again: nothing changed in the next two weeks."


@pytest.mark.parametrize(
    ("name", "content", "answer"),
    [
        ("notes.txt", b"milk, bread", "I cannot read notes.txt yet, so nothing changed."),
        ("notes.ics", b"milk, bread", "I find no calendar in notes.ics, so nothing changed."),
        ("big.ics", b"BEGIN:VCALENDAR" + b" " * 11_000_000, "big.ics is too large for me to read, so nothing changed."),
    ],
)
def test_what_is_no_calendar_is_told_in_one_sentence(stage: Stage, name: str, content: bytes, answer: str) -> None:
    assert stage.send(name, content).text == answer


def test_what_is_readable_is_kept_and_the_rest_counted(stage: Stage) -> None:
    broken = event("x", "Broken", "2026-not-a-day", "20260305T1700")
    assert stage.send("a.txt", calendar(SHIFT, broken)).lines[0] == "Read Museum: 1 event; 1 more I could not read."


def test_of_a_calendar_that_holds_too_much_the_earliest_events_are_kept(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(calendars, "MOST_KEPT", 1)
    answer = stage.send("a.ics", calendar(PICNIC, SHIFT))
    assert answer.lines[:2] == ["Read Museum: 1 event.", "There was more than I take; the rest was left out."]
    assert "Museum shift" in stage.say("thursday").text
    assert "Picnic" not in stage.say("saturday").text


def test_an_endless_rule_ends_within_its_limits(stage: Stage) -> None:
    endless = event("e", "Never", "20260302T0900", "20260302T0901", "RRULE:FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30")
    assert stage.send("a.ics", calendar(endless, SHIFT)).lines[0].startswith("Read Museum: ")
    assert "Museum shift" in stage.say("thursday").text


def test_words_mark_events_and_the_mark_survives_the_next_reading(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT, PICNIC))
    assert stage.say("mark museum shift museum").text == "Marked: events with “museum shift” count as Museum; ahead: 1 event."
    assert stage.say("mark picnic minor and outdoors").text == "Marked: events with “picnic” count as minor and outdoors; ahead: 1 event."
    stage.send("a.ics", calendar(SHIFT, event("picnic", "Picnic with Ann", "20260307T1300", "20260307T1500")))
    assert "13:00–15:00 Picnic with Ann (minor, outdoors)" in stage.say("saturday").text
    assert "Log museum 13:00–17:00" in stage.at("2026-03-05 20:30").labels


def test_a_later_mark_of_the_same_words_adds_to_what_was_said(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    stage.say("mark shift minor")
    assert stage.say("mark shift museum").text == "Marked: events with “shift” count as Museum and minor; ahead: 1 event."
    assert (
        stage.say("mark shift major and indoors").text == "Marked: events with “shift” count as Museum, major and indoors; ahead: 1 event."
    )


def test_an_event_is_moved_and_cancelled_in_its_calendar_and_the_message_is_drafted(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    assert stage.say("move museum shift to friday 9:00").lines == [
        "Museum shift comes from the calendar Museum, so it must be moved there. A message to copy:",
        "",
        "Hello, could we move “Museum shift” from Thursday 5 March, 13:00–17:00 to Friday 6 March, 09:00?",
    ]
    assert stage.say("cancel museum shift").lines[-1] == (
        "Hello, I am sorry, but I cannot come to “Museum shift” on Thursday 5 March, 13:00–17:00."
    )
    assert "Museum shift" in stage.say("thursday").text


def test_the_fourth_major_commitment_is_told_with_lighter_days_and_a_draft(stage: Stage) -> None:
    for said in ("appt thu 9-10 school", "appt thu 10-11 plumber", "appt thu 11-12 bank"):
        stage.say(said)
    answer = stage.send("a.ics", calendar(SHIFT))
    assert answer.lines[-1] == (
        "Thu 5 Mar now has 4 commitments; more than three is a lot for one day. "
        "Lighter, with that part of day free: Mon 2 Mar, Tue 3 Mar and Wed 4 Mar."
    )
    assert answer.labels[0] == "Ask to move Museum shift to Mon 2 Mar"
    assert "from Thursday 5 March, 13:00–17:00 to Monday 2 March" in stage.tap("Ask to move Museum shift to Mon 2 Mar").text


def test_a_calendar_is_removed_with_its_events_and_comes_back(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    assert stage.say("remove calendar museum").text == "Removed: Museum, with 1 event."
    assert "Museum shift" not in stage.say("thursday").text
    stage.say("undo")
    assert "Museum shift" in stage.say("thursday").text


def test_an_unknown_calendar_and_a_file_that_cannot_be_paused_are_told(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    assert stage.say("pause calendar garden").lines == ["I find no calendar “garden”.", "I know Museum."]
    assert stage.say("pause calendar museum").text.startswith("“Museum” came as a file, so there is no link to pause.")


def test_nothing_to_list_says_how_to_begin(stage: Stage) -> None:
    assert stage.say("calendars").text.startswith("No calendar yet. Send me an .ics file, or a link")


@pytest.mark.parametrize(
    ("fault", "answer"),
    [
        (Fault.NOT_REACHED, "I cannot reach museum.example just now. Nothing changed; please send it again later."),
        (Fault.PRIVATE_ADDRESS, "museum.example leads to a private address, where I do not go. Nothing changed."),
        (Fault.NOT_SECURE, "I read calendars over a secure connection only, and museum.example has none that I trust. Nothing changed."),
        (Fault.REFUSED, "museum.example refused to give me its calendar. Nothing changed."),
    ],
)
def test_a_link_that_gives_nothing_is_told_in_one_sentence(stage: Stage, fault: Fault, answer: str) -> None:
    stage.links.content["https://museum.example/secret.ics"] = fault
    assert stage.say("https://museum.example/secret.ics").text == "Reading museum.example."
    assert stage.tick().text == answer
    assert stage.say("calendars").text.startswith("No calendar yet.")


def test_public_holidays_stand_beside_the_days_until_they_are_switched_off(stage: Stage) -> None:
    assert "Mon 6 Apr (Easter Monday): nothing fixed" in stage.say("week of 2026-04-06").lines
    assert stage.say("2026-04-06").lines[1] == "Public holiday: Easter Monday."
    assert stage.say("holidays off").text == "Public holidays are no longer shown beside the days."
    assert "Easter" not in stage.say("week of 2026-04-06").text
    assert stage.say("holidays on").text == "Public holidays are shown beside the days."
    stage.say("zone UTC")
    assert "Easter" not in stage.say("week of 2026-04-06").text


def test_an_all_day_event_stays_on_its_date_when_the_person_goes_to_another_zone(stage: Stage) -> None:
    stage.send(
        "a.ics",
        calendar(
            event("fair", "Fair", "20260308T0000", "20260308T0000")
            .replace("DTSTART:20260308T000000", "DTSTART;VALUE=DATE:20260308")
            .replace("DTEND:20260308T000000", "DTEND;VALUE=DATE:20260310")
        ),
    )
    stage.say("appt 2026-03-12 delivery")
    stage.say("zone America/New_York")
    assert [each for each in stage.say("2026-03-08").lines if "Fair" in each] == ["All day: Fair"]
    assert [each for each in stage.say("2026-03-09").lines if "Fair" in each] == ["All day: Fair"]
    assert "Fair" not in stage.say("2026-03-07").text + stage.say("2026-03-10").text
    assert "All day: delivery" in stage.say("2026-03-12").lines
    stage.say("undo")
    assert "Fair" in stage.say("2026-03-08").text


def test_the_way_that_was_marked_outlasts_a_new_version_of_the_calendar(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    assert (
        stage.say("mark museum shift 20 min each way").lines[0]
        == "Marked: events with “museum shift” have 20 min each way; ahead: 1 event."
    )
    stage.send("a.ics", calendar(event("shift", "Museum shift", "20260306T1300", "20260306T1700")))
    assert "Afternoon: 13:00–17:00 Museum shift (20 min each way)" in stage.say("friday").lines
    assert stage.say("friday").lines[-1] == "Free: 10 h 20; 2 h 04 is kept for what comes up."


def test_allowing_time_for_an_event_of_a_calendar_marks_its_title(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    answer = stage.say("allow 15 min before the museum shift")
    assert answer.lines == [
        "Thu 5 Mar, 13:00–17:00 Museum shift (15 min before).",
        "It holds for all events with “Museum shift”, and the plan leaves that time free.",
    ]
    stage.tap("Undo")
    assert "15 min" not in stage.say("thursday").text


def test_words_in_the_plural_mark_events_that_are_called_by_one(stage: Stage) -> None:
    stage.send("shifts.ics", calendar(SHIFT, PICNIC))
    assert stage.say("mark picnics family").text == "Marked: events with “picnic” count as Family; ahead: 1 event."
    assert stage.say("mark parades family").text == "Marked: events with “parades” count as Family; ahead: 0 events."


def test_a_file_that_was_sent_before_under_any_name_says_what_changed(stage: Stage) -> None:
    weekly = event("weekly", "Visit", "20260303T0730", "20260303T0900", "RRULE:FREQ=WEEKLY;COUNT=10")
    assert stage.send("a.ics", calendar(SHIFT, weekly)).lines[0] == "Read Museum: 2 entries, 11 events in all."
    assert stage.send("b.ics", calendar(SHIFT, weekly, name="Other")).text == "Read again: nothing changed in the next two weeks."
    assert stage.send("c.ics", calendar(SHIFT, weekly, PICNIC, name="Third")).lines == [
        "Changed in Museum:",
        "New: Sat 7 Mar, 12:00–15:00 Picnic",
    ]
    assert stage.say("calendars").lines == ["Calendars", "Museum: 3 entries, 12 events in all, from a file"]
    assert stage.say("mark visit museum").text == "Marked: events with “visit” count as Museum; ahead: 1 entry, 10 events in all."


def test_an_event_that_was_called_off_leaves_the_persons_days_with_a_tap_and_comes_back_with_undo(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    stage.say("mark museum shift museum")
    free = stage.say("thursday").lines[-1]
    asked = stage.say("cancel museum shift thursday")
    assert asked.lines[0] == "Museum shift comes from the calendar Museum. If it was called off, a tap takes it out of your week."
    assert stage.tap("It was called off").text == "Cancelled: Thu 5 Mar, 13:00–17:00 Museum shift."
    assert "Museum shift" not in stage.say("thursday").text
    assert stage.say("thursday").lines[-1] != free
    stage.send("a.ics", calendar(SHIFT, PICNIC))
    assert "Museum shift" not in stage.say("week").text
    assert "No hours yet" not in stage.at("2026-03-06 06:05").text


def test_an_event_called_off_is_there_again_at_another_time(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    stage.say("cancel museum shift")
    stage.tap("It was called off")
    stage.send("a.ics", calendar(event("shift", "Museum shift", "20260305T1500", "20260305T1900")))
    assert "Thu 5 Mar: afternoon 15:00–19:00 Museum shift" in stage.say("week").lines


def test_taking_back_that_an_event_was_called_off_brings_it_back(stage: Stage) -> None:
    stage.send("a.ics", calendar(SHIFT))
    week = stage.say("week").text
    stage.say("cancel museum shift")
    stage.tap("It was called off")
    stage.say("undo")
    assert stage.say("week").text == week
