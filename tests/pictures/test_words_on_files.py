from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from bot.pictures.canvas import fitted, text_width
from bot.rules.pay.timesheet import timesheet
from bot.voice.picture_words import target_line
from bot.voice.timesheet_words import file_name, job_line, overtime_words, rules_said
from storage.records import Rounded, Rounding, RoundingStep, Stint
from tests.pictures.made_sheets import DESK, LAST, MANNERS, MUSEUM, empty
from tests.rules.made import BRUSSELS, MONDAY, stint


def test_a_files_name_says_job_and_period() -> None:
    assert file_name(empty(), "pdf") == "timesheet-museum-2026-03-02-to-2026-03-15.pdf"


def test_no_jobs_name_leads_a_file_out_of_its_folder() -> None:
    sheet = timesheet(replace(DESK, name="../front desk"), MONDAY, LAST, [], BRUSSELS)

    assert file_name(sheet, "csv") == "timesheet-front-desk-2026-03-02-to-2026-03-15.csv"


@pytest.mark.parametrize(
    ("starts", "untimed", "said"),
    [
        ([], 1, "without times"),
        ([8], 0, "08:00–08:50"),
        ([8, 13], 1, "08:00–08:50, 13:00–13:50, and some without times"),
        ([8, 10, 12, 14], 0, "08:00–14:50 in 4 stints"),
    ],
)
def test_a_days_times_fit_one_cell(starts: list[int], untimed: int, said: str) -> None:
    work = [replace(stint(MUSEUM, MONDAY, 50, f"2026-03-02 {hour:02d}:00"), id=hour) for hour in starts]
    work += [Stint(50 + number, MUSEUM, MONDAY, 20) for number in range(untimed)]

    (day,) = timesheet(DESK, MONDAY, LAST, work, BRUSSELS).days

    assert MANNERS.times(day) == said


def test_the_tie_rule_is_said_where_there_can_be_a_tie() -> None:
    tenths = replace(DESK, rounding=Rounding(RoundingStep.TENTH_HOUR, Rounded.DAYS))

    assert "For hours paid, each day's hours are rounded to the nearest 6 minutes, from the middle up." in rules_said(tenths)


def test_a_multiple_is_said_without_needless_noughts() -> None:
    assert overtime_words(Decimal("2.0"), MANNERS) == "Overtime at 2 times the rate"


@pytest.mark.parametrize(
    ("at_least", "at_most", "said"),
    [
        (None, None, ""),
        (240, None, "at least 4 h wanted"),
        (None, 90, "at most 1 h 30 wanted"),
        (240, 300, "4 h to 5 h wanted"),
    ],
)
def test_a_target_is_said_in_hours(at_least: int | None, at_most: int | None, said: str) -> None:
    assert target_line(at_least, at_most) == said


def test_a_name_too_long_for_its_place_is_cut_to_fit_it() -> None:
    name = "Museum of Canals and Locks " * 4

    assert text_width(fitted(name, 100), 12) <= 100
    assert fitted(name, 100).endswith("…")
    assert fitted("Museum", 100) == "Museum"


def test_a_period_of_one_day_has_its_day_twice() -> None:
    sheet = timesheet(DESK, MONDAY, MONDAY + timedelta(days=0), [], BRUSSELS)

    assert MANNERS.period(sheet) == "02/03/2026 to 02/03/2026"


def test_a_job_named_as_its_employer_is_named_once() -> None:
    assert job_line(replace(DESK, name="cinema", employer="Cinema")) == "Cinema"
    assert job_line(DESK) == "Museum, Museum of Canals and Locks"
