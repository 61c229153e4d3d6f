"""The crowded week: what does not fit is named, what comes too much is moved, and what changes is followed."""

from __future__ import annotations

from typing import Any

import pytest

from tests.week.crowded_page import COLUMNS, PAGE, page_of, played

Lines = list[dict[str, Any]]


@pytest.fixture(scope="module")
def week() -> Lines:
    return played()


def the(week: Lines, beginning: str) -> list[str]:
    """The lines of the one message of the bot that begins so."""
    (found,) = [line["text"] for line in week if line["from"] == "bot" and line["text"].startswith(beginning)]
    return str(found).split("\n")


def test_the_page_shows_what_the_week_says(week: Lines) -> None:
    assert PAGE.read_text("utf-8") == page_of(week)


def test_the_page_fits_a_phone(week: Lines) -> None:
    said = page_of(week).partition("```text\n")[2]
    assert max(map(len, said.split("\n"))) <= COLUMNS
    assert all(line["text"].count("\n") < 20 for line in week)


def test_a_goal_that_does_not_fit_is_named_on_sunday_with_what_would_make_room(week: Lines) -> None:
    assert (
        the(week, "Plan for 2–8 March")[-1]
        == "No room for 2 h 30 of write the course essay: it would fit if 2 h 30 less were kept for what comes up."
    )


def test_the_fourth_commitment_of_a_day_comes_with_a_lighter_day(week: Lines) -> None:
    assert the(week, "Added: Thu 5 Mar, 18:00–19:00 bank")[1] == (
        "Thu 5 Mar now has 4 commitments; more than three is a lot for one day. Lighter, with that part of day free: Sat 7 Mar."
    )
    assert the(week, "Moved from Thu 5 Mar, 18:00 to Sat 7 Mar, 18:00–19:00 bank")


def test_what_changed_under_a_link_is_told_in_one_message(week: Lines) -> None:
    changed = the(week, "Changed in Museum:")
    assert [line.split(":")[0] for line in changed[1:5]] == ["New", "Moved", "Moved", "Gone"]
    assert changed[5].startswith("Thu 5 Mar now has 4 commitments")
    assert "could we move “School tour” from Thursday 5 March, 14:00–15:00 to Saturday 7 March?" in the(week, "School tour comes from")[-1]


def test_rain_moves_the_task_outdoors_to_dry_hours(week: Lines) -> None:
    planned = [line for line in the(week, "Plan for Thu 5 Mar") if "paint the fence" in line]
    rainy = the(week, "Thursday 5 March")
    assert planned[0].startswith("06:30")
    assert rainy[1].startswith("Rain, 5 to 8 °C, wet 06:00–18:00")
    assert [line for line in rainy if "paint the fence" in line] == ["18:00–21:00 1 paint the fence"]
