"""The lines of a calendar and the components that hold them, whole or broken."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.outside.calendars.limits import LIMITS
from bot.outside.calendars.lines import CalendarFile, Component, Property, plain_text
from tests.outside.calendars_made import calendar, read


def event_lines(content: bytes) -> list[list[str]]:
    """The lines that are kept of every event, calendar by calendar."""
    return [event.lines for each in CalendarFile(content, LIMITS).calendars for event in each.named("VEVENT")]


def properties(line: str) -> list[Property]:
    """What a line of an event says."""
    return list(Component("VEVENT", [line]).properties(1_000))


@pytest.mark.parametrize("end", [b"\r\n", b"\n", b"\r"])
def test_lines_end_as_they_do_anywhere(end: bytes) -> None:
    content = calendar("DTSTART:20260303T090000Z|SUMMARY:Dentist").replace(b"\r\n", end)
    assert event_lines(content) == [["UID:1@example.org", "DTSTART:20260303T090000Z", "SUMMARY:Dentist"]]


def test_a_folded_line_is_one_even_if_it_is_folded_in_the_middle_of_a_letter() -> None:
    folded = "SUMMARY:Café".encode()[:-1] + b"\r\n " + "é".encode()[-1:] + b" at\r\n\t nine"
    content = calendar("DTSTART:20260303T090000Z|SUMMARY:x").replace(b"SUMMARY:x", folded)
    assert read(content).events[0].title == "Café at nine"


@pytest.mark.parametrize(
    "content",
    [
        calendar("SUMMARY:Café|DTSTART:20260303T090000Z"),
        b"\xef\xbb\xbf" + calendar("SUMMARY:Café|DTSTART:20260303T090000Z"),
        calendar("SUMMARY:Café|DTSTART:20260303T090000Z").decode().encode("latin-1"),
        calendar("SUMMARY:Café|DTSTART:20260303T090000Z").decode().encode("utf-16"),
    ],
)
def test_letters_are_read_whichever_way_they_are_coded(content: bytes) -> None:
    assert read(content).events[0].title == "Café"


def test_what_is_of_no_use_is_left_out() -> None:
    alarm = "BEGIN:VALARM|DTSTART:20200101T000000Z|SUMMARY:Wake up|END:VALARM"
    content = calendar(f"DTSTART:20260303T090000Z|ATTENDEE:mailto:me@example.org|{alarm}|SUMMARY:Dentist")
    assert event_lines(content) == [["UID:1@example.org", "DTSTART:20260303T090000Z", "SUMMARY:Dentist"]]


def test_an_event_that_never_ends_is_ended_by_the_next() -> None:
    content = calendar("UID:a", "UID:b", "UID:c").replace(b"END:VEVENT\r\n", b"", 1)
    assert event_lines(content) == [["UID:a"], ["UID:b"], ["UID:c"]]


def test_an_alarm_that_never_ends_is_ended_by_its_event() -> None:
    assert event_lines(calendar("UID:a|BEGIN:VALARM|UID:x", "UID:b")) == [["UID:a"], ["UID:b"]]


def test_a_calendar_that_was_cut_off_keeps_what_came_before() -> None:
    assert event_lines(calendar("UID:a", "UID:b").partition(b"UID:b")[0]) == [["UID:a"], []]


def test_ends_without_a_beginning_are_passed_over() -> None:
    assert event_lines(b"END:VEVENT\nEND:VCALENDAR\n" + calendar("UID:a|END:VALARM|UID:b")) == [["UID:a", "UID:b"]]


def test_a_file_may_hold_several_calendars_or_bare_events() -> None:
    assert event_lines(calendar("UID:a") + calendar("UID:b")) == [["UID:a"], ["UID:b"]]
    assert event_lines(b"BEGIN:VEVENT\nUID:a\nEND:VEVENT\n") == [["UID:a"]]


@pytest.mark.parametrize(
    ("line", "parameters", "value"),
    [
        ("SUMMARY:a:b;c", {}, "a:b;c"),
        ("summary;language=en:a", {"LANGUAGE": "en"}, "a"),
        ('DTSTART;TZID="A: B; C, D":20260303', {"TZID": "A: B; C, D"}, "20260303"),
        ("SUMMARY;X=1,2,3;Y=:a", {"X": "1", "Y": ""}, "a"),
    ],
)
def test_a_line_has_a_name_parameters_and_a_value(line: str, parameters: dict[str, str], value: str) -> None:
    (found,) = properties(line)
    assert (found.name, found.parameters, found.value) == (line[:7].upper(), parameters, value)


def test_a_line_that_says_nothing_is_passed_over() -> None:
    assert properties("RRULE: ") == []


@pytest.mark.parametrize("line", ["SUMMARY", "SUMMARY;X:a", 'SUMMARY;X="a:b', "SUMMARY;X=a;b:c", "SUMMARY:" + "x" * 1_000, ":", ";"])
def test_a_broken_line_is_refused(line: str) -> None:
    with pytest.raises(ValueError, match=r"^"):
        properties(line)


@pytest.mark.parametrize(
    ("value", "expected"),
    [(r"a\, b\; c\\ d", r"a, b; c\ d"), (r"a\nb\Nc", "a b c"), ("  a \t b\x00 c ", "a b c"), (r"ends in \\", "ends in \\"), ("\\", "\\")],
)
def test_text_loses_its_escapes_and_becomes_one_line(value: str, expected: str) -> None:
    assert plain_text(value, 100) == expected


@given(st.text(), st.integers(1, 50))
def test_text_is_never_longer_than_asked_for_and_never_more_than_a_line(value: str, most: int) -> None:
    text = plain_text(value, most)
    assert len(text) <= most
    assert len(text.split("\n")) == 1
    assert text == text.strip()
