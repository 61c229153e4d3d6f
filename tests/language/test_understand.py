"""What holds for every reply, whatever it says."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.context import Context
from bot.language.meaning import AddTask, Ask, Show, Undo, Unknown
from bot.language.understand import LONGEST_TEXT, understand
from tests.language.person import at, clocked_in
from tests.language.table import FOLDER, rows

REPLIES = [row.reply for path in sorted(FOLDER.glob("*.txt")) for row in rows(path.name)]
WORDS = sorted({word for reply in REPLIES for word in reply.split()})
MARKS = "-–—:;,.()[]/\\\"'“”?!@#&+*\n\t ½¾'"


@given(st.text(max_size=80))
def test_no_text_raises_and_any_text_means_the_same_twice(text: str) -> None:
    assert understand(text, at()) == understand(text, at())


@given(st.lists(st.sampled_from(WORDS), max_size=12).map(" ".join))
def test_no_jumble_of_known_words_raises(text: str) -> None:
    understand(text, at())


@given(st.sampled_from(REPLIES), st.integers(0, 40), st.text(alphabet=MARKS + "0123456789abcdefgh", max_size=4))
def test_no_reply_with_something_put_into_it_raises(reply: str, place: int, put_in: str) -> None:
    understand(reply[:place] + put_in + reply[place:], clocked_in())


def test_no_reply_that_breaks_off_after_any_of_its_words_raises() -> None:
    for reply in dict.fromkeys(" ".join(words[:end]) for each in REPLIES for words in [each.split()] for end in range(1, len(words))):
        understand(reply, at())
        understand(reply.partition(" ")[2], at())


@given(st.datetimes(datetime(1990, 1, 1), datetime(2090, 1, 1)), st.sampled_from(["Europe/Brussels", "Africa/Cairo", "Pacific/Chatham"]))
def test_no_moment_makes_a_reply_raise(now: datetime, zone: str) -> None:
    context = replace(at(), now=now.replace(tzinfo=ZoneInfo(zone)))
    for reply in ("22-6 museum", "2h workshop at 9", "push 2 to friday", "next month", "9-12", "appt 15:00 dentist", "since 9 workshop"):
        understand(reply, context)


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31", "31/12/9999", "1/1/1"])
def test_the_ends_of_the_calendar_are_survived(day: str) -> None:
    for reply in ("22-6 museum", "2h museum at 23", "2h museum until 1", "22:00-23:00 museum, 1h family"):
        understand(f"{day} {reply}", at())
    for order in ("push 1 to", "appt dentist", "week of", "hours since", "move dentist to", "task call Ann", "quiet until", "month", "day"):
        understand(f"{order} {day}", at())


def test_empty_and_endless_texts_are_not_understood() -> None:
    for text in ("", " ", "\n", "?!.", ".", ";", "x" * (LONGEST_TEXT + 1), "3h workshop, " * 500):
        assert isinstance(understand(text, at()), Unknown | Show), text


def test_a_person_without_categories_is_understood_as_far_as_that_goes() -> None:
    context = Context(at().now)
    assert isinstance(understand("undo", context), Undo)
    assert isinstance(understand("task call Ann", context), AddTask)
    assert isinstance(understand("2h workshop", context), Unknown)
    assert not isinstance(understand("2h", context), Ask)


def test_a_question_is_never_taken_for_an_order() -> None:
    for text in ("done 1?", "3h workshop?", "drop all?", "push 2?", "undo?", "out?"):
        assert isinstance(understand(text, at()), Unknown), text
    assert isinstance(understand("tomorrow?", at()), Show)


def test_a_polite_request_is_an_order() -> None:
    assert understand("can you push 2 to friday?", at()) == understand("push 2 to friday", at())
    assert understand("please done 1", at()) == understand("done 1", at())


def test_quotes_keep_what_is_in_them_from_being_read() -> None:
    assert understand('task "done 1, 2h workshop tomorrow"', at()) == AddTask("done 1, 2h workshop tomorrow", at().now.date())
    assert understand("task “push 2”", at()) == AddTask("push 2", at().now.date())
