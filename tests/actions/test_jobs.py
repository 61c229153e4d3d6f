"""What an employer has settled, told in a reply: said back in exact terms, and taken back."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from storage.desk import Desk
from storage.records import BreakRule, Job, JobRate, Limit, OvertimeRules, PayPeriod, Rounded, Rounding, RoundingStep, Weekday
from tests.stage import Stage

SETTLED = [
    ("rate museum 14.50 from 1 march", "Museum: 14.50 EUR an hour from Sun 1 Mar."),
    ("museum pays £15 an hour since 2 march", "Museum: 15.00 GBP an hour from Mon 2 Mar."),
    ("workshop rounds to 15 min each day", "Workshop: for hours paid, each day's hours are rounded to the nearest quarter of an hour."),
    ("workshop rounding off", "Workshop: hours are paid to the minute, without rounding."),
    ("museum break 45 min after 9 h", "Museum: a day over 6 h: 30 min of unpaid break."),
    ("museum break off", "Museum: no break is taken off but those you note."),
    ("museum is paid every two weeks from 9 march", "Museum: paid every two weeks; the period now is Mon 23 Feb – Sun 8 Mar."),
    (
        "workshop is paid monthly from the 21st",
        "Workshop: paid monthly from the 21st; the period now is Sat 21 Feb – Fri 20 Mar.",
    ),
    (
        "pay period workshop 31st to 30th",
        "Workshop: paid monthly from the 31st, or a shorter month's last day; the period now is Sat 28 Feb – Mon 30 Mar.",
    ),
    ("workshop is paid monthly", "Workshop: paid monthly; the period now is 1–31 March."),
    ("payday museum 5 days after", "Museum: payday 5 days after a period ends, next on Fri 6 Mar."),
    ("payday museum off", "Museum: payday is not known."),
    ("overtime workshop over 40 h at 1.5", "Workshop: overtime over 40 h a week: 1.5 times the rate."),
    ("overtime workshop on the seventh day at 1.5", "Workshop: overtime on the seventh day in a row of a workweek: 1.5 times the rate."),
    ("overtime workshop off", "Workshop: no overtime rules."),
    ("workweek workshop starts sunday", "Workshop: the workweek starts on Sunday."),
    ("currency workshop chf", "Workshop: no rate is given, so there are hours only; the currency is CHF."),
    ("employer museum City Museum", "Museum: the employer is City Museum."),
]
REFUSED = [
    ("workshop rounds to 7 min", "I cannot round to 7 minutes, only to 5, 6 or 15."),
    ("museum break 6h after 6h", "A break is shorter than the work it comes after, so nothing changed."),
    ("overtime workshop over 40 h at 1", "I could not use that: 1 times."),
    ("rate museum 0", "I could not use that: 0."),
    ("payday museum 90 days after", "I could not use that: 90 days."),
    ("rate learning 14", "“learning” is no job. If it is paid work, write “new job learning”."),
    ("new job museum", "“museum” is a job already. “job museum” shows what is settled for it."),
    (
        "payday museum 28th",
        "I count a payday from the end of its period, and that day is not always as far from it. "
        "Write for example “payday museum 5 days after”.",
    ),
    ("payday reminder on", "I do not know when that is paid. Write for example “payday workshop 5 days after”."),
]


def jobs(stage: Stage) -> dict[str, Job]:
    def read(desk: Desk) -> dict[str, Job]:
        return {desk.categories.get(job.category_id).name: job for job in desk.jobs.all()}

    found = stage.look(read)
    assert isinstance(found, dict)
    return found


def rates(stage: Stage) -> tuple[tuple[date, Decimal], ...]:
    def read(desk: Desk) -> tuple[JobRate, ...]:
        return desk.job_rates.of(next(job.id for job in desk.jobs.all() if desk.categories.get(job.category_id).name == "museum"))

    found = stage.look(read)
    assert isinstance(found, tuple)
    return tuple((each.since, each.per_hour) for each in found)


@pytest.mark.parametrize(("said", "answer"), SETTLED)
def test_a_rule_is_said_back_as_it_is_kept(stage: Stage, said: str, answer: str) -> None:
    assert stage.say(said).lines[0] == answer


@pytest.mark.parametrize(("said", "answer"), REFUSED)
def test_what_makes_no_sense_gets_one_sentence_and_changes_nothing(stage: Stage, said: str, answer: str) -> None:
    before = jobs(stage)
    assert stage.say(said).lines == [answer]
    assert jobs(stage) == before


@pytest.mark.parametrize(
    "said", [said for said, _ in SETTLED if said not in ("workshop rounding off", "payday museum off", "overtime workshop off")]
)
def test_every_rule_can_be_taken_back_and_done_again(stage: Stage, said: str) -> None:
    before = jobs(stage), rates(stage)
    stage.say(said)
    settled = jobs(stage), rates(stage)
    assert settled != before
    stage.say("undo")
    assert (jobs(stage), rates(stage)) == before
    stage.say("redo")
    assert (jobs(stage), rates(stage)) == settled


def test_rules_are_kept_as_values(stage: Stage) -> None:
    for said in (
        "workshop rounds to 6 min each punch",
        "workshop break 15 min after 4h",
        "workshop break 45 min after 9h",
        "workshop break 30 min after 9h",
        "overtime workshop over 12 h a day at 2",
        "overtime workshop over 8 h a day at 1.5",
        "workweek workshop sunday",
        "workshop is paid four-weekly from 2 march",
    ):
        stage.say(said)
    job = jobs(stage)["workshop"]
    assert job.rounding == Rounding(RoundingStep.TENTH_HOUR, Rounded.PUNCHES)
    assert job.breaks == (BreakRule(240, 15), BreakRule(540, 30))
    assert job.overtime == OvertimeRules(daily=(Limit(480, Decimal("1.5")), Limit(720, Decimal(2))))
    assert (job.week_starts, job.pay_period, job.anchor) == (Weekday.SUNDAY, PayPeriod.FOUR_WEEKLY, date(2026, 3, 2))


def test_more_hours_cannot_pay_less(stage: Stage) -> None:
    stage.say("overtime workshop over 8 h a day at 2")
    assert stage.say("overtime workshop over 12 h a day at 1.5").lines == ["More hours cannot pay less, so the overtime stays as it was."]


def test_a_first_rate_holds_from_the_first_hours_and_a_later_one_from_today(stage: Stage) -> None:
    stage.say("10 feb 2h museum")
    stage.say("rate museum 14.50")
    stage.say("rate museum 15")
    stage.say("rate museum 15.25")
    assert rates(stage) == ((date(2026, 2, 2), Decimal("14.50")), (date(2026, 3, 2), Decimal("15.25")))


def test_without_a_name_the_only_job_is_meant_and_of_two_it_is_asked(stage: Stage) -> None:
    assert stage.say("rate 14.50").labels == ["rate workshop 14.50", "rate museum 14.50"]
    assert stage.tap("rate museum 14.50").lines[0].startswith("Museum: 14.50 EUR an hour")


def test_a_new_job_makes_its_category_too(stage: Stage) -> None:
    answer = stage.say("new job bakery, employer Crumb & Sons, paid monthly")
    assert answer.lines[0] == "Bakery is a job now, for Crumb & Sons. Paid monthly; the period now is 1–31 March."
    assert stage.say("2h bakery").lines[0] == "Bakery, Mon 2 Mar: 2 h"
    assert stage.say("timesheet bakery").lines[0] == "Bakery, Crumb & Sons"


def test_a_new_job_is_set_up_in_one_go_with_its_month_and_its_rate(stage: Stage) -> None:
    assert stage.say("new job school, paid monthly from the 21st, 9,40 an hour").lines == [
        "School is a job now, for school. Paid monthly from the 21st; the period now is Sat 21 Feb – Fri 20 Mar.",
        "9.40 EUR an hour from Sat 21 Feb.",
        "“job school” shows all that is settled, and “help jobs” what else can be.",
    ]
    stage.say("22 feb 3h school")
    stage.say("20 feb 5h school")
    assert stage.say("timesheet school").lines[1].startswith("Sat 21 Feb – Fri 20 Mar")
    assert stage.say("jobs").lines[-1] == "School: paid monthly from the 21st"
    stage.say("undo")


def test_of_a_new_job_what_is_not_understood_is_said_and_nothing_is_made(stage: Stage) -> None:
    assert stage.say("new job school, paid monthly, break 30 min after 6 h").lines == [
        "I do not understand “break 30 min after 6 h” there, so nothing changed. "
        "Write for example “new job bakery, employer Crumb, paid monthly from the 21st, 15 an hour”."
    ]
    assert "school" not in jobs(stage)


def test_a_month_that_begins_on_the_21st_holds_for_timesheets_paydays_and_what_is_handed_in(stage: Stage) -> None:
    stage.say("workshop is paid monthly from the 21st")
    stage.say("20 feb 2h workshop")
    stage.say("21 feb 3h workshop")
    stage.say("payday workshop 8 days after")
    assert "next on Sat 28 Mar" in stage.say("job workshop").text
    stage.say("payday workshop 25th")
    assert "Payday 5 days after a period ends, next on Wed 25 Mar." in stage.say("job workshop").lines
    assert "21 Jan – Fri 20 Feb" in stage.say("handed in workshop last period").text
    assert "3 h" in stage.say("timesheet workshop").text
    assert "Pay period since Sat 21 Feb: Workshop 3 h" in stage.say("recap").text


def test_a_category_that_was_there_becomes_a_job_for_an_employer_of_its_name(stage: Stage) -> None:
    stage.say("new job learning")
    assert jobs(stage)["learning"].employer == "learning"


def test_a_job_shows_all_that_is_settled_for_it(stage: Stage) -> None:
    for said in ("rate museum 14.50 from 1 march", "payday museum 5 days after", "payday reminder on", "overtime museum over 40h at 1.5"):
        stage.say(said)
    assert stage.say("job museum").lines == [
        "Museum, Museum of Canals and Locks",
        "Paid every two weeks; the period now is 2–15 March.",
        "Payday 5 days after a period ends, next on Fri 6 Mar; I write the day before.",
        "The workweek starts on Monday.",
        "14.50 EUR an hour from Sun 1 Mar.",
        "Hours are paid to the minute, without rounding.",
        "A day over 6 h: 30 min of unpaid break.",
        "Overtime over 40 h a week: 1.5 times the rate.",
    ]


def test_several_jobs_are_listed_with_a_button_each(stage: Stage) -> None:
    answer = stage.say("jobs")
    assert answer.lines == [
        "Your jobs",
        "Workshop, Rolling Spoke Bicycle Repairs: paid weekly",
        "Museum, Museum of Canals and Locks: paid every two weeks",
    ]
    assert stage.tap("Museum").lines[0] == "Museum, Museum of Canals and Locks"


def test_a_job_left_out_of_the_first_conversation_goes_with_all_of_its_own_and_comes_back_with_it(stage: Stage) -> None:
    stage.say("rate museum 14.50")
    stage.say("handed in museum last period")
    kept = jobs(stage), rates(stage)
    stage.say("/start")
    for _ in range(3):
        stage.tap("Keep this")
    stage.say("workshop")
    assert list(jobs(stage)) == ["workshop"]
    stage.say("undo")
    assert (jobs(stage), rates(stage)) == kept


def test_a_first_rate_without_a_currency_is_in_that_of_the_other_job(stage: Stage) -> None:
    stage.say("rate museum $14.25")
    assert stage.say("rate workshop 21").lines[0].startswith("Workshop: 21.00 USD an hour from ")
    assert stage.say("rate workshop 20 eur").lines[0].startswith("Workshop: 20.00 EUR an hour from ")
    assert "EUR" in stage.say("rate workshop 22").text


def test_a_currency_that_a_job_was_given_stays(stage: Stage) -> None:
    stage.say("currency workshop chf")
    stage.say("rate museum $14.25")
    assert stage.say("rate workshop 21").lines[0].startswith("Workshop: 21.00 CHF")


def test_a_period_of_weeks_from_another_day_than_the_workweeks_says_so_and_a_tap_sets_it(stage: Stage) -> None:
    stage.say("workweek museum starts monday")
    answer = stage.say("museum is paid every two weeks from sunday march 1")
    assert answer.lines == [
        "Museum: paid every two weeks; the period now is Mon 23 Feb – Sun 8 Mar.",
        "A period begins with the workweek, on Monday, not on Sunday. If this job's weeks begin on Sunday:",
    ]
    assert stage.tap("Weeks of museum begin on Sunday").lines == ["Museum: the workweek starts on Sunday."]
    assert "the period now is 1–14 March." in stage.say("job museum").text
    assert len(stage.say("museum is paid monthly from 3 march").lines) == 1


def test_what_is_earned_in_a_span_is_told_by_job_and_together(stage: Stage) -> None:
    stage.say("rate museum 14.50")
    stage.say("rate workshop 12")
    stage.say("3h workshop")
    stage.say("4h museum")
    assert stage.say("how much do i earn this month").lines == [
        "Earned, 1–2 March",
        "Workshop: 3 h, 36.00 EUR",
        "Museum: 4 h, 58.00 EUR",
        "Together: 94.00 EUR",
        "Before deductions; the employer's record and local law decide.",
    ]
    assert stage.say("earnings museum").lines[1:] == [
        "Museum: 4 h, 58.00 EUR",
        "Before deductions; the employer's record and local law decide.",
    ]


def test_the_breaks_and_the_rounding_that_the_employer_takes_off_are_told_beside_the_hours(stage: Stage) -> None:
    stage.say("rate museum 10")
    stage.say("museum 1-8:07")
    # The museum takes half an hour off a day of more than six: 7 h 07 are 6 h 37, and pay 66.17.
    assert stage.say("earnings museum").lines[1] == "Museum: 6 h 37 (30 min of break off), 66.17 EUR"
    stage.say("museum rounds to 15 min each day")
    assert stage.say("earnings museum").lines[1] == "Museum: 6 h 30 (30 min of break off, rounded), 65.00 EUR"


def test_without_a_rate_it_is_said_how_one_is_told(stage: Stage) -> None:
    stage.say("3h workshop")
    assert stage.say("earnings").lines == [
        "Earned, 1–2 March",
        "Workshop: 3 h; no rate is known, so write “rate workshop” and what an hour pays.",
        "Museum: no hours.",
    ]


def test_currencies_are_not_added_up(stage: Stage) -> None:
    stage.say("rate museum 14.50")
    stage.say("rate workshop $12")
    stage.say("3h workshop")
    stage.say("4h museum")
    assert "Together" not in stage.say("pay").text


def test_asked_when_it_is_paid_each_job_says_its_next_payday(stage: Stage) -> None:
    stage.say("payday museum 5 days after")
    lines = stage.say("when do i get paid?").lines
    assert lines[1:] == [
        "Workshop, Rolling Spoke Bicycle Repairs: paid weekly",
        "Museum, Museum of Canals and Locks: paid every two weeks, next on Fri 6 Mar",
    ]
