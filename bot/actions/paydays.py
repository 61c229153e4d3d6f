"""What the rounds about pay need to know."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from bot.actions.jobs import rules_for
from bot.actions.timesheets import handed_in_of, sheet_of
from bot.rules.pay.timesheet import Timesheet
from bot.voice.replies import PaydayEve
from storage.desk import Desk


@dataclass(frozen=True, slots=True)
class AskedFor:
    """A timesheet that is wanted as files of these ``forms``."""

    sheet: Timesheet
    forms: tuple[str, ...]
    zone: ZoneInfo


def sheet_asked_for(desk: Desk, detail: str) -> AskedFor | None:
    """The timesheet that a round's ``detail`` names; None where its job is gone."""
    job_id, first, last, forms = detail.split(" ")
    job = desk.jobs.find(int(job_id))
    if job is None:
        return None
    sheet = sheet_of(desk, rules_for(desk, job), date.fromisoformat(first), date.fromisoformat(last))
    return AskedFor(sheet, tuple(forms.split(",")), ZoneInfo(desk.person.zone))


def payday_tomorrow(desk: Desk, payday: date, *, late: bool = False) -> PaydayEve | None:
    """The periods with hours that are paid on ``payday``, in jobs whose paydays are told of; None when there are none."""
    paid = []
    for job in desk.jobs.all():
        if not job.remind or job.payday_after is None:
            continue
        rules = rules_for(desk, job)
        first, last = rules.period_of(payday - timedelta(days=job.payday_after))
        if rules.payday_of(first) == payday:
            sheet = sheet_of(desk, rules, first, last)
            paid += [(sheet, handed_in_of(desk, job, sheet) is not None)] if sheet.days else []
    return PaydayEve(payday, tuple(paid), late) if paid else None
