"""What found no hours is told with what would make it fit."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from bot.rules.planning.remedies import FillMore, InTheWet, MoreTime, OutsideWindow, Remedy, Splitting, Without
from bot.voice.manners import Manners
from bot.voice.plan_said import left_out_lines, week_planned
from bot.voice.replies import LeftOut, WeekPlanned, WeekShare, WeekShort
from storage.records import DateOrder

MONDAY = date(2026, 3, 2)
MANNERS = Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, MONDAY)
SIX = datetime(2026, 3, 2, 17, tzinfo=UTC)


@pytest.mark.parametrize(
    ("remedy", "words"),
    [
        (OutsideWindow(SIX), "it would fit at 18:00, outside its window"),
        (InTheWet(SIX), "it would fit at 18:00, when it is likely wet"),
        (Splitting(2), "it would fit in 2 pieces"),
        (FillMore(45), "it would fit if 45 min less were kept for what comes up"),
        (Without("exercise"), "it would fit without exercise"),
        (MoreTime(60), "1 h is missing"),
    ],
)
def test_each_remedy_has_its_words(remedy: Remedy, words: str) -> None:
    assert left_out_lines((LeftOut("paint the fence", 120, (remedy,)),), MANNERS) == [f"No hours for paint the fence (2 h): {words}."]


def test_what_would_make_several_fit_is_said_once() -> None:
    sunday = date(2026, 3, 8)
    lines = left_out_lines(
        (
            LeftOut("bread", 30, (FillMore(30),), 1, sunday),
            LeftOut("paint", 60, (MoreTime(20),)),
            LeftOut("shoes", 30, (FillMore(30),), 2, sunday),
        ),
        MANNERS,
    )
    assert lines == [
        "No hours for bread (30 min) and shoes (30 min): each would fit if 30 min less were kept for what comes up. "
        "Sun 8 Mar has room for each.",
        "No hours for paint (1 h): 20 min are missing.",
    ]


def test_only_the_first_few_are_told_and_the_rest_is_counted() -> None:
    lines = left_out_lines(tuple(LeftOut(f"task {number}", 30) for number in range(5)), MANNERS)
    assert len(lines) == 4
    assert lines[-1] == "and 2 more without hours"


def test_a_week_is_told_by_day_with_what_does_not_fit() -> None:
    reply = WeekPlanned(
        MONDAY,
        date(2026, 3, 8),
        (WeekShare(MONDAY, "finish chapter 4", 60), WeekShare(MONDAY, "sort the tools", 30)),
        (WeekShort("sort the tools", 90, False), WeekShort("Museum", 60, True)),
        (("Workshop", 120),),
        proven=False,
    )
    assert week_planned(reply, MANNERS).text.split("\n") == [
        "Plan for 2–8 March",
        "Mon 2 Mar: finish chapter 4 (1 h), sort the tools (30 min)",
        "No room for 1 h 30 of sort the tools, as the days are full.",
        "No room for 1 h of Museum, as more would be over what you want at most.",
        "A good plan; with so much to place I stopped looking for a better one.",
        "Workshop already has 2 h more than you want at most.",
    ]
