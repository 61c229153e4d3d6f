"""A timesheet in the chat, its files, and what was handed in."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from openpyxl import load_workbook

from bot.actions.enclosures import file_of
from storage.records import Parcel, ParcelKind
from tests.pictures.office import needs_office, recomputed
from tests.stage import Stage

NOTHING_THERE = "No hours logged."


@pytest.fixture
def fortnight(stage: Stage) -> Stage:
    """The museum's rules and four days of its first fortnight in March, on the Monday after."""
    for said in (
        "rate museum 14.50 from 1 march",
        "museum rounds to 15 min each day",
        "payday museum 5 days after",
        "overtime museum over 8h a day at 1.5",
    ):
        stage.say(said)
    stage.jump("2026-03-16 09:00")
    for said in ("3 march museum 13:02-17:08", "5 march museum 9:02-18:07", "10 march museum 13-17 less 15m", "12 march museum 13-16:38"):
        stage.say(said)
    return stage


def test_a_timesheet_shows_days_totals_overtime_and_likely_pay(fortnight: Stage) -> None:
    # 20 h at 14.50 are 290.00; half of 14.50 for the half hour over 8 h on the 5th is 3.625, from the middle up 3.63.
    answer = fortnight.say("timesheet museum last period")
    assert answer.lines == [
        "Museum, Museum of Canals and Locks",
        "2–15 March",
        "Tue 3 Mar: 13:02–17:08: 4 h 06, paid 4 h",
        "Thu 5 Mar: 09:02–18:07: 9 h 05, paid 8 h 30",
        "Tue 10 Mar: 13:00–17:00, less 15 min: 3 h 45",
        "Thu 12 Mar: 13:00–16:38: 3 h 38, paid 3 h 45",
        "Together: 20 h 34",
        "Breaks you noted: 15 min, not counted",
        "Paid: 20 h, less 30 min of break and rounded",
        "Overtime at 1.5 times the rate: 30 min",
        "Gross pay, estimated: 293.63 EUR. Before deductions; the employer's record and local law decide.",
        "Payday: Fri 20 Mar.",
    ]
    assert answer.labels == ["Files", "Handed in", "Period before"]


def test_a_month_of_work_is_summed_up_by_week_and_fits_a_phone(stage: Stage) -> None:
    stage.say("workshop is paid monthly")
    stage.jump("2026-03-31 20:00")
    for day in range(2, 31):
        stage.say(f"{day} march 2h workshop")
    lines = stage.say("timesheet workshop").lines
    assert lines[1:8] == [
        "1–31 March",
        "2–8 March: 14 h on 7 days",
        "9–15 March: 14 h on 7 days",
        "16–22 March: 14 h on 7 days",
        "23–29 March: 14 h on 7 days",
        "30–31 March: 2 h on 1 day",
        "Together: 58 h",
    ]
    assert len(lines) <= 20


@pytest.mark.parametrize(
    ("said", "span"),
    [
        ("timesheet museum", "16–29 March"),
        ("timesheet museum last period", "2–15 March"),
        ("timesheet museum period before last", "Mon 16 Feb – Sun 1 Mar"),
        ("timesheet museum february", "1–28 February"),
        ("timesheet museum 10 march", "2–15 March"),
    ],
)
def test_which_period_is_shown(fortnight: Stage, said: str, span: str) -> None:
    assert fortnight.say(said).lines[1] == span


def test_the_period_before_is_a_tap_away(fortnight: Stage) -> None:
    fortnight.say("timesheet museum last period")
    assert fortnight.tap("Period before").lines[1:] == ["Mon 16 Feb – Sun 1 Mar", NOTHING_THERE, "Payday: Fri 6 Mar."]


def test_two_jobs_of_one_employer_share_overtime_at_the_average_of_their_rates(stage: Stage) -> None:
    """The sums are in tests/outside_checks; here, that the chat counts both jobs, and a third employer's apart."""
    for said in (
        "employer museum Rolling Spoke Bicycle Repairs",
        "new job bakery, employer Crumb, paid weekly",
        "museum is paid weekly",
        "museum break off",
        "rate workshop 10 from 1 march",
        "rate museum 20 from 1 march",
        "overtime museum over 40 h at 1.5",
    ):
        stage.say(said)
    stage.jump("2026-03-08 20:00")
    for day in range(2, 7):
        stage.say(f"{day} march 6h workshop")
        stage.say(f"{day} march 4h bakery")
    for said in ("7 march 10h museum", "8 march 5h museum"):
        stage.say(said)
    # 30 h at 10 and 15 h at 20 are 600 over 45 h: 13.33… an hour; 5 h of overtime are half of that on top: 33.33.
    lines = stage.say("timesheet museum").lines
    assert "Overtime at 1.5 times the rate: 5 h" in lines
    assert lines[-1].startswith("Gross pay, estimated: 333.33 EUR.")


def test_a_period_handed_in_says_so_and_keeps_its_figures(fortnight: Stage) -> None:
    fortnight.say("timesheet museum last period")
    assert (
        fortnight.tap("Handed in").lines[0] == "Handed in: the museum timesheet of 2–15 March, 20 h 34, paid 20 h, with 30 min of overtime."
    )
    answer = fortnight.say("timesheet museum last period")
    assert answer.lines[-1] == "Handed in on Mon 16 Mar, with 30 min of overtime."
    assert "Handed in" not in answer.labels


CHANGES = [
    ("12 march 17-18 museum", "Thu 12 Mar 3 h 38 then, 4 h 38 now"),
    ("11 march 2h museum", "Wed 11 Mar nothing then, 2 h now"),
]


@pytest.mark.parametrize(("said", "change"), CHANGES)
def test_a_later_log_is_flagged_in_its_answer_and_in_the_next_timesheets(fortnight: Stage, said: str, change: str) -> None:
    fortnight.say("handed in museum last period")
    assert f"This changes the museum timesheet of 2–15 March that you handed in: {change}." in fortnight.say(said).lines
    assert fortnight.say("timesheet museum last period").lines[-1] == f"Changed since you handed it in on Mon 16 Mar: {change}."
    assert fortnight.say("timesheet museum").lines[-1] == "Changed since you handed them in: 2–15 March."


def test_taking_a_change_back_settles_the_period_again(fortnight: Stage) -> None:
    fortnight.say("handed in museum last period")
    fortnight.say("12 march 1h museum")
    fortnight.tap("Log it as well")
    assert len(fortnight.say("undo").lines) == 1
    assert fortnight.say("timesheet museum last period").lines[-1] == "Handed in on Mon 16 Mar, with 30 min of overtime."


def test_an_edit_an_undo_and_a_tap_that_drop_or_change_hours_are_flagged(fortnight: Stage) -> None:
    fortnight.say("11 march 2h museum")
    fortnight.say("handed in museum last period")
    flagged = "This changes the museum timesheet of 2–15 March that you handed in: Wed 11 Mar 2 h then, {} now."
    undo = next(parcel for parcel in reversed(fortnight.parcels()) if parcel.text.startswith("Museum, Wed 11 Mar: 2 h"))
    assert fortnight.hear_tap(f"{undo.id}.0.0").lines[-1] == flagged.format("nothing")
    assert len(fortnight.say("redo").lines) == 1
    fortnight.say("11 march 1h museum")
    assert fortnight.edit("11 march 90m museum").lines[-1] == flagged.format("3 h 30")
    assert fortnight.say("no, 30m").lines[-1] == flagged.format("2 h 30")


def test_handing_in_anew_settles_it_and_can_be_taken_back(fortnight: Stage) -> None:
    fortnight.say("handed in museum last period")
    fortnight.say("12 march 1h museum")
    fortnight.tap("Log it as well")
    fortnight.say("timesheet museum last period")
    assert (
        fortnight.tap("Handed in anew").lines[0]
        == "Handed in anew: the museum timesheet of 2–15 March, 21 h 34, paid 21 h, with 30 min of overtime."
    )
    assert fortnight.say("timesheet museum last period").lines[-1] == "Handed in on Mon 16 Mar, with 30 min of overtime."
    fortnight.say("undo")
    assert fortnight.say("timesheet museum last period").lines[-1].startswith("Changed since you handed it in")


def test_a_rule_that_is_new_since_changes_no_period_handed_in_before(fortnight: Stage) -> None:
    fortnight.say("handed in museum last period")
    sheet = fortnight.say("timesheet museum last period").lines
    assert fortnight.say("museum rounding off").lines == ["Museum: hours are paid to the minute, without rounding."]
    fortnight.say("museum 30 min break after 3h")
    assert fortnight.say("timesheet museum last period").lines == sheet
    assert sheet[-1] == "Handed in on Mon 16 Mar, with 30 min of overtime."
    fortnight.say("handed in museum last period")
    assert fortnight.say("timesheet museum last period").lines != sheet


def test_hours_of_the_other_job_and_of_other_days_are_not_flagged(fortnight: Stage) -> None:
    fortnight.say("handed in museum last period")
    for said in ("12 march 1h workshop", "16 march 1h museum"):
        assert "handed in" not in fortnight.say(said).text


def test_on_the_first_day_of_a_period_the_one_that_ended_yesterday_is_meant_until_it_was_handed_in(fortnight: Stage) -> None:
    fortnight.say("1h museum")
    assert "2–15 March" in fortnight.say("handed in museum").lines[0]
    assert "16–29 March" in fortnight.say("handed in museum").lines[0]
    assert "16–29 March" in fortnight.say("handed in museum this period").lines[0]


def test_on_its_first_day_the_period_may_be_named(fortnight: Stage) -> None:
    assert "16–29 March" in fortnight.say("handed in museum this period").lines[0]


def test_a_period_that_still_runs_may_be_handed_in_with_a_word(fortnight: Stage) -> None:
    fortnight.say("1h museum")
    fortnight.jump("2026-03-19 09:00")
    assert fortnight.say("handed in museum").lines[1] == "The period still runs until Sun 29 Mar."


def test_while_a_period_has_no_hours_the_one_before_is_meant(fortnight: Stage) -> None:
    fortnight.jump("2026-03-19 09:00")
    assert fortnight.say("handed in museum").lines[0].startswith("Handed in: the museum timesheet of 2–15 March")
    assert fortnight.say("handed in museum").lines[0].startswith("Handed in anew: the museum timesheet of 2–15 March")


def test_where_both_periods_have_hours_the_other_is_a_tap_away(fortnight: Stage) -> None:
    fortnight.say("1h museum")
    handed = fortnight.say("handed in museum")
    assert "2–15 March" in handed.lines[0]
    assert handed.labels == ["No, 16–29 March", "Undo"]
    assert "16–29 March" in fortnight.tap("No, 16–29 March").text
    assert "Handed in on" not in fortnight.say("timesheet museum last period").text
    assert "Handed in on" in fortnight.say("timesheet museum").text


def test_later_in_a_period_with_hours_it_is_meant_itself(fortnight: Stage) -> None:
    fortnight.say("1h museum")
    fortnight.jump("2026-03-20 09:00")
    handed = fortnight.say("handed in museum")
    assert "16–29 March" in handed.lines[0]
    assert handed.labels == ["No, 2–15 March", "Undo"]


def content(stage: Stage, parcel: Parcel) -> bytes:
    """The file, made as it is when the parcel is carried."""
    made = stage.look(lambda desk: file_of(desk, parcel.encloses or ""))
    assert isinstance(made, bytes)
    return made


def test_the_files_come_one_by_one_and_say_what_they_are(fortnight: Stage) -> None:
    sent = fortnight.say("timesheet museum last period files").parcels
    assert [(each.kind, each.file_name, each.text) for each in sent] == [
        (ParcelKind.FILE, f"timesheet-museum-2026-03-02-to-2026-03-15.{form}", f"Museum timesheet, 2–15 March: 20 h 34, paid 20 h. {words}")
        for form, words in (
            ("pdf", "To print and sign (PDF)."),
            ("xlsx", "A workbook with its sums (XLSX)."),
            ("csv", "Plain cells (CSV)."),
        )
    ]
    made = [content(fortnight, each) for each in sent]
    assert [each[:4] for each in made[:2]] == [b"%PDF", b"PK\x03\x04"]
    rows = list(csv.reader(io.StringIO(made[2].decode("utf-8-sig"))))
    assert rows[1][:5] == ["Museum of Canals and Locks", "Museum", "03/03/2026", "Tuesday", "13:02–17:08"]
    assert rows[5][2] == "Total"


def test_the_overtime_of_a_period_handed_in_is_said_and_what_becomes_of_it(fortnight: Stage) -> None:
    assert fortnight.say("handed in museum last period").lines[0] == (
        "Handed in: the museum timesheet of 2–15 March, 20 h 34, paid 20 h, with 30 min of overtime."
    )
    assert "Handed in on Mon 16 Mar, with 30 min of overtime." in fortnight.say("timesheet museum last period").lines
    # Of 9 h 45 with a break of 15 min another 15 are taken off: 9 h 30 paid are 1 h 30 over 8 h, beside the half hour of the 5th.
    fortnight.say("10 march 6h museum")
    fortnight.tap("Log it as well")
    changed = next(line for line in fortnight.say("timesheet museum last period").lines if line.startswith("Changed since"))
    assert changed == ("Changed since you handed it in on Mon 16 Mar: Tue 10 Mar 3 h 45 then, 9 h 45 now; overtime 30 min then, 2 h now.")


def test_one_form_alone_may_be_asked_for_and_a_tap_brings_all(fortnight: Stage) -> None:
    assert len(fortnight.say("museum timesheet csv last period").parcels) == 1
    fortnight.say("timesheet museum last period")
    assert len(fortnight.tap("Files").parcels) == 3


def test_dates_in_files_follow_the_persons_order(fortnight: Stage) -> None:
    fortnight.say("dates month-day")
    (sent,) = fortnight.say("museum timesheet csv last period").parcels
    assert "03/05/2026" in content(fortnight, sent).decode("utf-8")


def test_figures_follow_the_persons_form_in_the_chat_and_in_files(fortnight: Stage) -> None:
    fortnight.say("decimals comma")
    assert "Gross pay, estimated: 293,63 EUR." in fortnight.say("timesheet museum last period").text
    assert "14,50 EUR an hour" in fortnight.say("job museum").text
    (sent,) = fortnight.say("museum timesheet csv last period").parcels
    assert '"293,63"' in content(fortnight, sent).decode("utf-8")


@needs_office
def test_the_workbook_sent_comes_to_the_totals_of_the_chat(fortnight: Stage, tmp_path: Path) -> None:
    (sent,) = fortnight.say("museum timesheet xlsx last period").parcels
    file = tmp_path / "sent.xlsx"
    file.write_bytes(content(fortnight, sent))
    (opened,) = recomputed([file], tmp_path / "office")
    sheet = load_workbook(opened, data_only=True).worksheets[0]
    totals = {row[0].value: [cell.value for cell in row] for row in sheet.iter_rows()}
    assert totals["Gross pay, estimated, EUR"][3] == 293.63


def test_a_later_rate_or_currency_is_pointed_out_where_it_changes_what_was_handed_in(fortnight: Stage) -> None:
    # 20 h at 15.00 are 300.00, and half of 15.00 for half an hour of overtime is 3.75.
    fortnight.say("handed in museum last period")
    flagged = "This changes the museum timesheet of 2–15 March that you handed in: pay 293.63 EUR then, {} now."
    assert flagged.format("303.75 EUR") in fortnight.say("rate museum 15 from 2 march").lines
    assert fortnight.say("timesheet museum last period").lines[-1] == "What it pays has changed since: 293.63 EUR then, 303.75 EUR now."
    assert "handed in" not in fortnight.say("undo").text
    assert flagged.format("293.63 CHF") in fortnight.say("currency museum chf").lines


def test_a_rate_is_not_blamed_for_hours_that_were_corrected_before_it(fortnight: Stage) -> None:
    fortnight.say("handed in museum last period")
    assert "This changes the museum timesheet of 2–15 March" in fortnight.say("correct museum 12 march 13-15:38").text
    for said in ("rate museum 15 from 16 march", "rate museum 12 from 1 february"):
        assert "handed in" not in fortnight.say(said).text
    # 19 h at 15.00 are 285.00, and half of 15.00 for half an hour of overtime is 3.75.
    assert fortnight.say("rate museum 15 from 2 march").lines[-1].endswith("that you handed in: pay 293.63 EUR then, 288.75 EUR now.")


def test_a_rate_from_after_the_period_changes_nothing_handed_in(fortnight: Stage) -> None:
    fortnight.say("handed in museum last period")
    assert len(fortnight.say("rate museum 15 from 16 march").lines) == 2
