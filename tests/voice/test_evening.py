"""The evening's question fits a phone, however much is open."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from bot.voice.manners import Manners
from bot.voice.replies import EveningNudge
from bot.voice.rounds_said import evening
from storage.records import Commitment, DateOrder, Occurrence, Task

MONDAY = date(2026, 3, 2)
MANNERS = Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, MONDAY)
SEVEN = datetime(2026, 3, 2, 6, tzinfo=UTC)


def tasks(count: int) -> tuple[Task, ...]:
    return tuple(Task(number, f"task {number}", MONDAY, number) for number in range(1, count + 1))


def shifts(count: int) -> tuple[tuple[str, Occurrence], ...]:
    shift = Commitment(1, "shift", SEVEN, SEVEN + timedelta(hours=1), "Europe/Brussels")
    return (("museum", Occurrence(shift, MONDAY, shift.starts, shift.ends)),) * count


def test_however_much_is_open_the_buttons_are_eight_rows_at_most() -> None:
    said = evening(EveningNudge(MONDAY, tasks(9), shifts(6), ("museum", SEVEN)), MANNERS)

    assert [row[-1].label for row in said.buttons] == [
        "Drop 1",
        "Drop 2",
        "Drop 3",
        "Push all",
        "Log museum 07:00–08:00",
        "Log museum 07:00–08:00",
        "Log all as planned",
        "Clock out",
    ]
    assert "For the others, write: done 4, push 4 or drop 4" in said.text.splitlines()


def test_with_a_button_for_each_task_no_words_are_taught() -> None:
    assert "For the others" not in evening(EveningNudge(MONDAY, tasks(3), ()), MANNERS).text
