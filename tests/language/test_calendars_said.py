"""What is not important, and what is not outdoors, in so many words. The table ``calendars.txt`` holds the rest."""

from __future__ import annotations

import pytest

from bot.language.calendar_meaning import AddCalendar, ChangeCalendar, MarkEvents
from bot.language.meaning import Close
from bot.language.pick import Pick
from bot.language.understand import understand
from tests.language.person import at


def test_major_and_indoors_are_said_and_not_left_open() -> None:
    assert understand("mark school play major", at()) == MarkEvents("school play", minor=False)
    assert understand("mark picnic indoors", at()) == MarkEvents("picnic", outdoors=False)


@pytest.mark.parametrize(
    "text", ["mark choir minor major", "mark minor", "mark", "mark my words", "calendar of the museum", "pause calendar"]
)
def test_what_contradicts_itself_or_says_nothing_is_no_order(text: str) -> None:
    assert not isinstance(understand(text, at()), MarkEvents | AddCalendar | ChangeCalendar)


def test_marking_a_task_done_still_closes_it() -> None:
    assert understand("mark done 1", at()) == Close(Pick(numbers=(1,)))
