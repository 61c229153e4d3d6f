"""The jobs of a settings file: what each employer has settled."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from bot.rules.pay.job_rules import LIMITS, LONGEST_WAIT
from bot.settings_table import Table
from storage.records import BreakRule, Limit, OvertimeRules, PayPeriod, Rounded, Rounding, RoundingStep, Weekday

KEYS = (
    "category", "employer", "pay_period", "anchor", "month_starts", "workweek_starts", "payday_after", "payday_reminder",
    "rounding", "rounded", "breaks", "currency", "rates", "overtime",
)  # fmt: skip
LONGEST_MONTH = 31


@dataclass(frozen=True, slots=True)
class JobSettings:
    """A job that a new person starts with; ``category`` is its category's name. ``rates`` are days and what an hour pays from then on."""

    category: str
    employer: str
    pay_period: PayPeriod
    anchor: date | None = None
    month_starts: int = 1
    workweek_starts: Weekday | None = None
    payday_after: int | None = None
    payday_reminder: bool = False
    rounding: Rounding | None = None
    breaks: tuple[BreakRule, ...] = ()
    currency: str = "EUR"
    rates: tuple[tuple[date, Decimal], ...] = ()
    overtime: OvertimeRules | None = None


def read_job(table: Table, categories: list[str]) -> JobSettings:
    """One job, of one of the ``categories``. Raises SettingsError."""
    table.only(KEYS)
    return JobSettings(
        category=table.one_of("category", categories),
        employer=table.text("employer"),
        pay_period=table.choice("pay_period", PayPeriod) if table.has("pay_period") else PayPeriod.WEEKLY,
        anchor=table.day("anchor") if table.has("anchor") else None,
        month_starts=table.integer("month_starts", 1, LONGEST_MONTH) if table.has("month_starts") else 1,
        workweek_starts=_weekday(table) if table.has("workweek_starts") else None,
        payday_after=table.integer("payday_after", 0, LONGEST_WAIT) if table.has("payday_after") else None,
        payday_reminder=_reminder(table),
        rounding=_rounding(table),
        breaks=_breaks(table),
        currency=table.currency("currency") if table.has("currency") else "EUR",
        rates=_rates(table),
        overtime=_overtime(table),
    )


def _weekday(table: Table) -> Weekday:
    return Weekday[table.one_of("workweek_starts", [each.name.lower() for each in Weekday]).upper()]


def _reminder(table: Table) -> bool:
    wanted = table.flag("payday_reminder") if table.has("payday_reminder") else False
    if wanted and not table.has("payday_after"):
        raise table.fault("payday_after", "days after a period's last, because a payday is to be told of")
    return wanted


def _rounding(table: Table) -> Rounding | None:
    if not table.has("rounding"):
        if table.has("rounded"):
            raise table.fault("rounding", "5, 6 or 15 minutes, because it is said what is rounded")
        return None
    steps = [step.value for step in RoundingStep]
    step = table.integer("rounding", min(steps), max(steps))
    if step not in steps:
        raise table.fault("rounding", "5, 6 or 15 minutes", step)
    return Rounding(RoundingStep(step), table.choice("rounded", Rounded) if table.has("rounded") else Rounded.PUNCHES)


def _breaks(table: Table) -> tuple[BreakRule, ...]:
    found: dict[int, BreakRule] = {}
    for each in table.tables("breaks"):
        each.only(["after", "minutes"])
        after = each.hours("after")
        if after in found:
            raise each.fault("after", "hours that no other break is after")
        found[after] = BreakRule(after, each.integer("minutes", 1, max(1, after - 1)))
    return tuple(found[after] for after in sorted(found))


def _rates(table: Table) -> tuple[tuple[date, Decimal], ...]:
    found: dict[date, Decimal] = {}
    for each in table.tables("rates"):
        each.only(["since", "per_hour"])
        since = each.day("since")
        if since in found:
            raise each.fault("since", "a day from which no other rate holds", since)
        found[since] = each.amount("per_hour")
    return tuple(sorted(found.items()))


def _overtime(table: Table) -> OvertimeRules | None:
    limits: dict[str, list[Limit]] = {name: [] for name in LIMITS.values()}
    for each in table.tables("overtime"):
        each.only(["over", "times", "of"])
        name = LIMITS[each.one_of("of", list(LIMITS)) if each.has("of") else "week"]
        limit = Limit(each.hours("over"), each.amount("times"))
        before = limits[name][-1] if limits[name] else Limit(-1, Decimal(1))
        if limit.over_minutes <= before.over_minutes:
            raise each.fault("over", "more hours than the limit before it")
        if limit.times <= before.times:
            raise each.fault("times", f"more than {before.times:f}")
        limits[name].append(limit)
    return OvertimeRules(**{name: tuple(found) for name, found in limits.items()}) if table.has("overtime") else None
