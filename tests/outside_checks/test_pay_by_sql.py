"""A thousand invented histories, added up once by the rules and once by a database: plain SQL over whole numbers."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from random import Random
from zoneinfo import ZoneInfo

from bot.rules.pay.job_rules import WEEKLY_OVERTIME, JobRules, Rate
from bot.rules.pay.rounding import hundredths
from bot.rules.pay.timesheet import days_needed, timesheet
from storage.records import BreakRule, PayPeriod, Rounded, Rounding, RoundingStep, Stint, Weekday

HISTORIES = 1000
DAYS = 42
KATHMANDU = "Asia/Kathmandu"
"""A quarter of an hour off the full hours of UTC, and no clock changes: rounding must look at the clocks on the wall."""

ORIGIN = date(2026, 1, 5)

TABLES = """
CREATE TABLE history (id INTEGER PRIMARY KEY, step INTEGER, punches INTEGER, after INTEGER, off INTEGER, week_starts INTEGER,
    old_cents INTEGER, new_cents INTEGER, raised INTEGER, first INTEGER, last INTEGER);
CREATE TABLE stint (history INTEGER, day INTEGER, minutes INTEGER, break INTEGER, starts INTEGER, ends INTEGER);
"""

# Days count from a Monday, minutes from midnight. A step of 1 rounds nothing.
TOTALS = """
WITH noted AS (
    SELECT h.*, s.day, s.minutes, s.break, s.starts, s.ends,
        CASE WHEN NOT punches THEN s.minutes
            WHEN starts IS NULL THEN (2 * s.minutes + step) / (2 * step) * step
            ELSE max(0, (2 * ends + step) / (2 * step) * step - (2 * starts + step) / (2 * step) * step
                - (2 * break + step) / (2 * step) * step) END AS counted
    FROM history h JOIN stint s ON s.history = h.id),
by_day AS (
    SELECT id, step, punches, first, last, day, (day - week_starts + 14) / 7 AS week, sum(minutes) AS worked, sum(counted) AS counted,
        CASE WHEN day >= raised THEN new_cents ELSE old_cents END AS cents,
        CASE WHEN sum(minutes) > after THEN
            max(0, off - sum(break) - coalesce(max(ends) - min(starts) - sum(ends - starts), 0)) ELSE 0 END AS off,
        week_starts
    FROM noted GROUP BY id, day),
paid AS (
    SELECT *, CASE WHEN punches THEN max(0, counted - off)
        ELSE (2 * max(0, counted - off) + step) / (2 * step) * step END AS paid FROM by_day),
weeks AS (
    SELECT id, week, sum(paid) AS minutes, sum(paid * cents) AS earned, max(0, sum(paid) - 2400) AS over
    FROM paid GROUP BY id, week HAVING week * 7 + week_starts - 8 BETWEEN first AND last)
SELECT h.id,
    (SELECT coalesce(sum(worked), 0) FROM paid WHERE id = h.id AND day BETWEEN h.first AND h.last),
    (SELECT coalesce(sum(paid), 0) FROM paid WHERE id = h.id AND day BETWEEN h.first AND h.last),
    (SELECT coalesce(sum(paid * cents), 0) FROM paid WHERE id = h.id AND day BETWEEN h.first AND h.last),
    (SELECT coalesce(group_concat(over || ' ' || earned || ' ' || minutes), '') FROM weeks WHERE id = h.id AND over > 0)
FROM history h ORDER BY h.id
"""


@dataclass(frozen=True, slots=True)
class History:
    """A job, a period and the stints noted for it."""

    job: JobRules
    first: date
    last: date
    stints: tuple[Stint, ...]


def invented(random: Random) -> History:
    """Six weeks of a job whose rules are drawn too."""
    what = random.choice(list(Rounded))
    rounding = random.choice([None, *(Rounding(step, what) for step in RoundingStep)])
    raised = ORIGIN + timedelta(days=random.randrange(DAYS))
    rates = (Rate(ORIGIN - timedelta(days=7), _money(random)), Rate(raised, _money(random)))
    job = JobRules(
        1,
        "workshop",
        "Rolling Spoke",
        random.choice(list(PayPeriod)),
        Weekday(random.randrange(7)),
        rounding=rounding,
        breaks=(BreakRule(random.choice([240, 360, 480]), random.choice([15, 30, 45])),),
        rates=rates,
        overtime=WEEKLY_OVERTIME,
    )
    first, last = job.period_of(ORIGIN + timedelta(days=random.randrange(DAYS)))
    return History(job, first, last, tuple(_stints(random)))


def _money(random: Random) -> Decimal:
    return Decimal(random.randrange(1000, 4000)) / 100


def _stints(random: Random) -> Iterator[Stint]:
    number, longest = 0, random.choice([120, 280, 420])
    for day in range(-7, DAYS):
        minute = random.randrange(360, 600)
        for _ in range(random.choice([0, 1, 1, 2, 2, 3])):
            number += 1
            length, pause = random.randrange(5, longest), random.choice([0, 0, 10, 30])
            pause = min(pause, length - 1)
            if random.random() < 0.3:
                yield Stint(number, 1, ORIGIN + timedelta(days=day), length - pause, break_minutes=pause)
                continue
            starts = datetime(2026, 1, 5, tzinfo=ZoneInfo(KATHMANDU)) + timedelta(days=day, minutes=minute)
            ends = starts + timedelta(minutes=length)
            yield Stint(number, 1, ORIGIN + timedelta(days=day), length - pause, starts, ends, pause)
            minute += length + random.choice([0, 0, 7, 25, 60])


def _history_row(number: int, history: History) -> tuple[int | None, ...]:
    job, (old, new) = history.job, history.job.rates
    step = int(job.rounding.step) if job.rounding else 1
    punches = job.rounding is not None and job.rounding.what is Rounded.PUNCHES
    days = [(each - ORIGIN).days for each in (new.since, history.first, history.last)]
    rule = job.breaks[0]
    cents = [int(rate.per_hour * 100) for rate in (old, new)]
    return number, step, punches, rule.after_minutes, rule.minutes, int(job.week_starts), *cents, *days


def _stint_row(number: int, stint: Stint) -> tuple[int | None, ...]:
    midnight = datetime.combine(stint.day, datetime.min.time(), ZoneInfo(KATHMANDU))
    at = [None if each is None else (each - midnight) // timedelta(minutes=1) for each in (stint.starts, stint.ends)]
    return number, (stint.day - ORIGIN).days, stint.minutes, stint.break_minutes, *at


def by_sql(path: Path, histories: list[History]) -> list[tuple[int, int, Decimal, Decimal, int]]:
    """Exact minutes, paid minutes, straight pay, premium and overtime minutes of each history."""
    database = sqlite3.connect(path)
    database.executescript(TABLES)
    database.executemany(f"INSERT INTO history VALUES ({', '.join('?' * 11)})", [_history_row(n, each) for n, each in enumerate(histories)])
    rows = [_stint_row(number, stint) for number, each in enumerate(histories) for stint in each.stints]
    database.executemany("INSERT INTO stint VALUES (?, ?, ?, ?, ?, ?)", rows)
    found = database.execute(TOTALS).fetchall()
    database.close()
    return [(worked, paid, hundredths(Fraction(cents, 6000)), *_over(weeks)) for _, worked, paid, cents, weeks in found]


def _over(weeks: str) -> tuple[Decimal, int]:
    """Half of each week's average pay for each of its minutes over forty hours."""
    numbers = [tuple(int(number) for number in week.split()) for week in weeks.split(",") if week]
    extra = sum((Fraction(over * earned, 2 * minutes * 6000) for over, earned, minutes in numbers), Fraction(0))
    return hundredths(extra), sum(over for over, _, _ in numbers)


def by_rules(history: History) -> tuple[int, int, Decimal, Decimal, int]:
    """The same from a timesheet."""
    first, last = days_needed(history.job, history.first, history.last)
    stints = [stint for stint in history.stints if first <= stint.day <= last]
    sheet = timesheet(history.job, history.first, history.last, stints, KATHMANDU)
    assert sheet.estimate is not None
    return sheet.worked, sheet.paid, sheet.estimate.straight, sheet.estimate.premium, sum(each.minutes for each in sheet.overtime)


def test_a_thousand_histories_come_to_what_plain_sql_says(tmp_path: Path) -> None:
    random = Random(20260302)
    histories = [invented(random) for _ in range(HISTORIES)]

    expected = by_sql(tmp_path / "histories.sqlite", histories)

    assert [by_rules(history) for history in histories] == expected
    assert sum(row[4] > 0 for row in expected) > HISTORIES // 10, "too few of them have overtime to tell"
