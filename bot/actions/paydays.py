"""Payday's eve."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.jobs import rules_for
from bot.actions.sheets import sheet_of_period
from bot.actions.timesheets import handed_in_of
from bot.voice.replies import PaydayEve
from storage.desk import Desk


def payday_tomorrow(desk: Desk, payday: date, *, late: bool = False) -> PaydayEve | None:
    """The periods with hours that are paid on ``payday``, in jobs whose paydays are told of; None when there are none."""
    paid = []
    for job in desk.jobs.all():
        if not job.remind or job.payday_after is None:
            continue
        rules = rules_for(desk, job)
        first, last = rules.period_of(payday - timedelta(days=job.payday_after))
        if rules.payday_of(first) == payday:
            sheet = sheet_of_period(desk, job, first, last)
            paid += [(sheet, handed_in_of(desk, job, sheet) is not None)] if sheet.days else []
    return PaydayEve(payday, tuple(paid), late) if paid else None
