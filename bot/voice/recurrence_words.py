"""A recurrence rule (RFC 5545) in words, in the form that the language reads back."""

from __future__ import annotations

from datetime import datetime

from bot.rules.weeks import DAY_CODES
from bot.voice.manners import LONG_DAYS, LONG_MONTHS, listed
from storage.records import DateOrder

PLACES = {1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth", -1: "last"}
UNITS = {"DAILY": "day", "WEEKLY": "week", "MONTHLY": "month", "YEARLY": "year"}


def rule_words(rule: str, date_order: DateOrder = DateOrder.DAY_MONTH) -> str:
    """ "every Tuesday and Thursday until 30 June 2026". A rule with parts beyond these is told as far as it goes."""
    parts = dict(part.split("=", 1) for part in rule.split(";") if "=" in part)
    words = _which_days(parts)
    if "UNTIL" in parts:
        until = datetime.strptime(parts["UNTIL"][:8], "%Y%m%d")
        month = LONG_MONTHS[until.month - 1]
        date = f"{until.day} {month}" if date_order is DateOrder.DAY_MONTH else f"{month} {until.day}"
        words += f" until {date} {until.year}"
    if "COUNT" in parts:
        words += f", {parts['COUNT']} times"
    return words


def _which_days(parts: dict[str, str]) -> str:
    interval = int(parts.get("INTERVAL", "1"))
    days = parts.get("BYDAY", "")
    if days == "MO,TU,WE,TH,FR" and interval == 1:
        return "every weekday"
    if parts.get("FREQ") == "MONTHLY" and days and days[:-2].lstrip("+-").isdigit():
        return f"every {PLACES.get(int(days[:-2]), days[:-2])} {_day_name(days[-2:])} of the month"
    if days and parts.get("FREQ") in ("WEEKLY", "DAILY"):
        names = listed([_day_name(code[-2:]) for code in days.split(",")])
        return f"every {_nth(interval)}{names}"
    if "BYMONTHDAY" in parts:
        return f"on the {listed([_place(day) for day in parts['BYMONTHDAY'].split(',')])} of every {_nth(interval)}month"
    return f"every {_nth(interval)}{UNITS.get(parts.get('FREQ', ''), 'time')}"


def _place(day: str) -> str:
    """ "1st", "22nd"; counted from the month's end "last day"."""
    if day.startswith("-"):
        return "last day" if day == "-1" else f"{_place(day[1:])} last day"
    return nth(int(day))


def nth(day: int) -> str:
    """ "1st", "22nd", "13th"."""
    ending = "th" if day in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(day % 10, "th")
    return f"{day}{ending}"


def _nth(interval: int) -> str:
    return {1: "", 2: "other ", 3: "third "}.get(interval, f"{interval}th ")


def _day_name(code: str) -> str:
    return LONG_DAYS[DAY_CODES.index(code)] if code in DAY_CODES else code
