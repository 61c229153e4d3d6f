from __future__ import annotations

import io
from dataclasses import replace
from datetime import time, timedelta

import pytest
from pypdf import PdfReader

from bot.pictures.paper import PaperSize, text_width
from bot.pictures.week_page import TIMES_WIDTH, week_page
from bot.voice.times_of_day import span_text
from storage.records import ClockStyle, DateOrder, Occurrence
from tests.pictures.made_weeks import MANNERS
from tests.rules.made import MONDAY, occurrence

SIZES = pytest.mark.parametrize("size", list(PaperSize))


def named(title: str, start: str, end: str, *, all_day: bool = False) -> Occurrence:
    made = occurrence(start, end)
    return replace(made, commitment=replace(made.commitment, title=title, all_day=all_day))


def text_of(content: bytes) -> str:
    (page,) = PdfReader(io.BytesIO(content)).pages
    return page.extract_text()


DENTIST = named("Dentist", "2026-03-03 09:30", "2026-03-03 10:15")
SHIFT = named("Front desk", "2026-03-03 13:00", "2026-03-03 17:00")
FAIR = named("Bicycle fair", "2026-03-07 00:00", "2026-03-08 00:00", all_day=True)


@SIZES
@pytest.mark.parametrize("count", [0, 3, 200])
def test_a_week_is_one_page_of_the_paper_asked_for(count: int, size: PaperSize) -> None:
    occurrences = [
        named(f"Visit {number}", f"2026-03-0{2 + number % 7} 09:00", f"2026-03-0{2 + number % 7} 10:00") for number in range(count)
    ]

    (page,) = PdfReader(io.BytesIO(week_page(MONDAY, occurrences, MANNERS, size=size))).pages

    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size.value, abs=0.01)


def test_each_day_has_its_commitments_in_their_order() -> None:
    text = text_of(week_page(MONDAY, [SHIFT, FAIR, DENTIST], MANNERS))

    said = (
        "2–8 March",
        "Tuesday",
        "09:30–10:15",
        "Dentist",
        "13:00–17:00",
        "Front desk",
        "Wednesday",
        "Saturday",
        "Bicycle fair",
        "Sunday",
    )
    places = [text.index(each) for each in said]
    assert places == sorted(places)
    assert "00:00" not in text


def test_days_are_in_the_persons_order() -> None:
    assert "Mar 3" in text_of(week_page(MONDAY, [], replace(MANNERS, date_order=DateOrder.MONTH_DAY)))


def test_times_are_by_the_persons_clock() -> None:
    text = text_of(week_page(MONDAY, [SHIFT, DENTIST], replace(MANNERS, clock_style=ClockStyle.TWELVE)))
    assert "9:30–10:15 am" in text
    assert "1:00–5:00 pm" in text


@pytest.mark.parametrize("style", ClockStyle)
def test_the_longest_times_leave_room_before_the_title(style: ClockStyle) -> None:
    spans = (span_text(time(first, 44), time(last, 44), style) for first in range(24) for last in range(24))
    assert max(text_width(said, 10.5) for said in spans) < TIMES_WIDTH[style] - 3


def test_more_commitments_than_the_page_holds_are_counted() -> None:
    occurrences = [
        named(f"Visit {day}.{number}", f"2026-03-0{2 + day} {8 + number // 6:02d}:{number % 6}0", f"2026-03-0{2 + day} 23:00")
        for day in range(7)
        for number in range(20)
    ]

    text = text_of(week_page(MONDAY, occurrences, MANNERS, size=PaperSize.LETTER))

    shown, more = text.count("Visit "), [int(line.split()[1]) for line in text.splitlines() if line.startswith("and ")]
    assert len(more) == 7
    assert shown + sum(more) == 7 * 20


def test_goals_stand_on_the_lines_for_them_and_those_left_over_are_counted() -> None:
    text = text_of(week_page(MONDAY, [], MANNERS, [f"Goal {number}" for number in range(12)]))

    assert text.count("Goal ") + int(text.split("and ")[-1].split()[0]) == 12
    assert "Goals and notes" in text


def test_a_day_outside_the_week_is_not_on_its_page() -> None:
    later = replace(DENTIST, day=DENTIST.day + timedelta(days=7))

    assert "Dentist" not in text_of(week_page(MONDAY, [later], MANNERS))


def test_the_same_week_gives_the_same_bytes_at_any_time() -> None:
    assert week_page(MONDAY, [SHIFT], MANNERS) == week_page(MONDAY, [SHIFT], MANNERS)
