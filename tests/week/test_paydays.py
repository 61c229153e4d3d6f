"""The same three weeks on payday, and what is told of each one alone. Every figure is worked out by hand beside it."""

from __future__ import annotations

import pytest

from tests.week.whole_week import Week, played


@pytest.fixture(scope="module")
def two_shifts(tmp_path_factory: pytest.TempPathFactory) -> Week:
    return played("two_shifts", tmp_path_factory.mktemp("two_shifts"))


@pytest.fixture(scope="module")
def choir(tmp_path_factory: pytest.TempPathFactory) -> Week:
    return played("choir", tmp_path_factory.mktemp("choir"))


@pytest.fixture(scope="module")
def carer(tmp_path_factory: pytest.TempPathFactory) -> Week:
    return played("carer", tmp_path_factory.mktemp("carer"))


def test_the_laundry_pays_to_the_minute(two_shifts: Week) -> None:
    # 7 h 33 + 7 h 30 + 7 h 30 + 8 h 15 = 30 h 48 = 30.8 h; 30.8 h of 16.20 EUR are 498.96 EUR.
    sheet = two_shifts.answer("timesheet laundry")
    assert "Together: 30 h 48" in sheet
    assert "Breaks you noted: 1 h 30, not counted" in sheet
    assert "Gross pay, estimated: 498.96 EUR." in sheet


def test_the_pool_pays_each_day_rounded_to_a_quarter_of_an_hour(two_shifts: Week) -> None:
    # 5 h 55 is 5 min from 6 h and 10 from 5 h 45: 6 h; 7 h 30 stays. 13 h 30 of 13.50 EUR are 182.25 EUR.
    sheet = two_shifts.answer("timesheet pool last period")
    assert "Wed 15 Apr: 15:00–21:10, less 15 min: 5 h 55, paid 6 h" in sheet
    assert "Sat 18 Apr: 10:00–18:00, less 30 min: 7 h 30\n" in sheet
    assert "Gross pay, estimated: 182.25 EUR." in sheet
    assert two_shifts.answer("Handed in").startswith("Handed in: the pool timesheet of 6–19 April, 13 h 25, paid 13 h 30.")
    names = {path.name.rpartition(".")[2] for path in two_shifts.files.glob("timesheet-pool-2026-04-06-to-2026-04-19.*")}
    assert names == {"pdf", "xlsx", "csv"}


def test_the_night_is_that_of_the_day_it_began(two_shifts: Week) -> None:
    assert "Laundry, Thu 16 Apr, 21:55–06:10: 8 h 15" in two_shifts.answer("out")


def test_the_garden_centre_takes_the_break_off_that_was_not_noted_and_no_other(choir: Week) -> None:
    # Saturday 10–16 less 30 was noted with its break, Sunday's 6 h are due one: 5 h 30 twice, 11 h of 12,80 EUR are 140,80 EUR.
    sheet = choir.answer("timesheet")
    assert "Sat 10 Oct: 10:00–16:00, less 30 min: 5 h 30\n" in sheet
    assert "Sun 11 Oct: 10:00–16:00: 6 h, paid 5 h 30" in sheet
    assert "Gross pay, estimated: 140,80 EUR." in sheet


def test_what_is_handed_in_on_a_periods_morrow_is_the_one_that_ended(choir: Week, carer: Week) -> None:
    assert choir.answer("handed in").startswith("Handed in: the garden centre timesheet of 5–11 October, 11 h 30, paid 11 h.")
    assert carer.answer("handed in proofreading").startswith("Handed in: the proofreading timesheet of 23–29 March, 4 h 45.")
    assert carer.answer("handed in translation").startswith("Handed in: the translation timesheet of 1–31 March, 11 h 35.")


def test_paydays_eve_is_told(choir: Week) -> None:
    # The week of 5–11 October is paid 3 days after its last day: on the 14th, so the 13th is its eve.
    (eve,) = choir.of("payday")
    assert eve["at"][:10] == "2026-10-13"
    assert "140,80 EUR" in eve["text"]


def test_proofreading_pays_rounded_days_and_translation_minutes(carer: Week) -> None:
    # 45 min; 2 h 20 is nearer to 2 h 15; 1 h 40 to 1 h 45: 4 h 45 = 4.75 h of 22.50 EUR are 106.875, so 106.88 EUR.
    sheet = carer.answer("timesheet proofreading")
    assert "2 h 20, paid 2 h 15" in sheet
    assert "1 h 40, paid 1 h 45" in sheet
    assert "Gross pay, estimated: 106.88 EUR." in sheet
    # 2 h 15 + 3 h + 1 h 30 + 1 h 30 + 3 h 20 = 11 h 35 = 695 min; 695 / 60 h of 28 EUR are 324.333, so 324.33 EUR.
    assert "Gross pay, estimated: 324.33 EUR." in carer.answer("timesheet translation last period")


def test_the_month_ends_with_its_own_recap(carer: Week) -> None:
    (month,) = carer.of("month")
    assert month["at"][:16] == "2026-03-31T18:00"
    assert "Together: 46 h 30" in month["text"]


def test_goals_are_met_with_their_tasks_and_what_is_left_is_carried(two_shifts: Week, choir: Week, carer: Week) -> None:
    met = {
        "Goals met: sew the costume and clear the cellar.": two_shifts,
        "Goals met: learn the mosses and finish the herbarium.": choir,
        "Goals met: translate chapter 9.": carer,
    }
    for line, week in met.items():
        assert line in week.of("recap")[-1]["text"].split("\n")
    assert "Goals of the week that wait: swim 1 km, carried once." in two_shifts.of("morning")[-1]["text"]
    assert "1 practise the alto part" in choir.of("morning")[-1]["text"]
    # What nobody touched on Sunday carried over by itself, and was met on Monday.
    assert carer.answer("done invoice") == "Closed: send the invoice.\nGoal met too: send the invoice."


def test_the_lab_that_moved_by_night_is_told_without_a_sound(choir: Week) -> None:
    (changed,) = choir.of("calendars")
    assert changed["silent"]
    assert "Moved: Thu 8 Oct, 13:00–16:00 Microscope lab, now Thu 8 Oct, 14:00–17:00" in changed["text"]


def test_in_the_night_the_clocks_go_forward_the_watch_lasts_an_hour_less_and_rounds_keep_their_local_times(carer: Week) -> None:
    # tz database 2026f, Europe/Lisbon: on 29 March 2026 at 01:00 UTC the offset goes from +00:00 to +01:00.
    assert carer.answer("out 7:00").split("\n")[0] == "Rosa, Sat 28 Mar, 22:55–07:00: 7 h 05"
    mornings = [line["at"] for line in carer.of("morning")]
    assert mornings[5:7] == ["2026-03-28T06:00:00+00:00", "2026-03-29T06:00:00+01:00"]
    evenings = [line["at"] for line in carer.of("evening")]
    assert evenings[5:7] == ["2026-03-28T20:00:00+00:00", "2026-03-29T20:00:00+01:00"]
    assert [line["at"] for line in carer.of("recap")] == ["2026-03-29T18:00:00+01:00"]
    # The clinic's calendar says 08:30 UTC: half past nine by the new clock.
    assert "Rosa, Sun 29 Mar, 09:30–10:15: 45 min" in carer.answer("clinic as planned")
