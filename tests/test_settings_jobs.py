"""The jobs of a settings file: all that an employer settles, and the one line that says what is wrong with it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from bot.settings import JobSettings, SettingsError
from storage.records import BreakRule, Limit, OvertimeRules, PayPeriod, Rounded, Rounding, RoundingStep, Weekday
from tests.stage import Stage
from tests.test_settings import settings_of


def test_all_that_an_employer_settles_may_stand_in_the_file(tmp_path: Path) -> None:
    text = """
[[jobs]]
category = "museum"
employer = "City Museum"
pay_period = "four-weekly"
anchor = 2026-03-02
month_starts = 21
workweek_starts = "sunday"
payday_after = 5
payday_reminder = true
rounding = 15
rounded = "each day"
breaks = [{ after = "9:00", minutes = 45 }, { after = "6:00", minutes = 30 }]
currency = "GBP"
rates = [{ since = "2026-03-01", per_hour = "14.50" }, { since = 2025-01-01, per_hour = "13" }]
overtime = [{ over = "40:00", times = "1.5" }, { over = "8:00", times = "1.5", of = "day" }, { over = "12:00", times = "2", of = "day" }]
"""
    assert settings_of(tmp_path, text).jobs == (
        JobSettings(
            category="museum",
            employer="City Museum",
            pay_period=PayPeriod.FOUR_WEEKLY,
            anchor=date(2026, 3, 2),
            month_starts=21,
            workweek_starts=Weekday.SUNDAY,
            payday_after=5,
            payday_reminder=True,
            rounding=Rounding(RoundingStep.QUARTER_HOUR, Rounded.DAYS),
            breaks=(BreakRule(360, 30), BreakRule(540, 45)),
            currency="GBP",
            rates=((date(2025, 1, 1), Decimal(13)), (date(2026, 3, 1), Decimal("14.50"))),
            overtime=OvertimeRules(weekly=(Limit(2400, Decimal("1.5")),), daily=(Limit(480, Decimal("1.5")), Limit(720, Decimal(2)))),
        ),
    )


JOB_FAULTS = [
    ("rounding = 7", "jobs[1].rounding: expected 5, 6 or 15 minutes, not 7"),
    ('rounded = "each day"', "jobs[1].rounding: expected 5, 6 or 15 minutes, because it is said what is rounded"),
    ('breaks = [{ after = "6 h", minutes = 30 }]', "jobs[1].breaks[1].after: expected hours and minutes such as \"6:00\", not '6 h'"),
    ('breaks = [{ after = "1:00", minutes = 60 }]', "jobs[1].breaks[1].minutes: expected a whole number from 1 to 59, not 60"),
    (
        'breaks = [{ after = "6:00", minutes = 30 }, { after = "6:00", minutes = 15 }]',
        "jobs[1].breaks[2].after: expected hours that no other break is after",
    ),
    (
        "rates = [{ since = 2026-03-01, per_hour = 14.5 }]",
        'jobs[1].rates[1].per_hour: expected an amount in quotes such as "14.50", not 14.5',
    ),
    ('rates = [{ since = "1 March", per_hour = "14.50" }]', "jobs[1].rates[1].since: expected a day such as 2026-03-02, not '1 March'"),
    ('rates = [{ since = "2026-02-30", per_hour = "1" }]', "jobs[1].rates[1].since: expected a day such as 2026-03-02, not '2026-02-30'"),
    ('overtime = [{ over = "40:00", times = "1" }]', "jobs[1].overtime[1].times: expected more than 1"),
    (
        'overtime = [{ over = "40:00", times = "1.5" }, { over = "38:00", times = "2" }]',
        "jobs[1].overtime[2].over: expected more hours than the limit before it",
    ),
    ('currency = "euro"', "jobs[1].currency: expected a currency's code such as \"EUR\", not 'euro'"),
    ("payday_reminder = true", "jobs[1].payday_after: expected days after a period's last, because a payday is to be told of"),
    ('payday_reminder = "yes"', "jobs[1].payday_reminder: expected true or false, not 'yes'"),
    ("anchor = 2026", "jobs[1].anchor: expected a day such as 2026-03-02, not 2026"),
    ("month_starts = 32", "jobs[1].month_starts: expected a whole number from 1 to 31, not 32"),
    ("round = 15", "jobs[1].round: expected a known key, nearest is rounded"),
]


@pytest.mark.parametrize(("line", "error"), JOB_FAULTS)
def test_a_fault_in_a_job_names_its_key(tmp_path: Path, line: str, error: str) -> None:
    with pytest.raises(SettingsError) as fault:
        settings_of(tmp_path, f'[[jobs]]\ncategory = "museum"\nemployer = "City Museum"\n{line}\n')
    assert str(fault.value).endswith(error)


def test_a_new_person_starts_with_the_files_rates_and_reminders(tmp_path: Path) -> None:
    text = '[[jobs]]\ncategory = "museum"\nemployer = "City Museum"\npayday_after = 1\npayday_reminder = true\n'
    settings = settings_of(tmp_path, text + 'rates = [{ since = 2026-03-01, per_hour = "14.50" }]\n')
    stage = Stage(tmp_path, settings)
    stage.say("2h museum")
    assert "Payday on Monday 9 March" in stage.at("2026-03-08 20:00").text
    assert "14.50 EUR an hour from Sun 1 Mar." in stage.say("job museum").lines
    stage.close()
