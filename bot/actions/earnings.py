"""What the jobs are likely to pay for the hours of a span."""

from __future__ import annotations

from bot.actions.jobs import all_rules, job_meant, rules_for
from bot.actions.refused import refused
from bot.actions.sheets import sheet_of
from bot.actions.today import today
from bot.language.meaning import Show
from bot.rules.weeks import first_of_month
from bot.voice.replies import EarningsView
from storage.desk import Desk


def show_earnings(desk: Desk, said: Show) -> EarningsView:
    """The timesheets of each job, or of the one asked for, over the span; of days to come nothing is known. Raises Stopped."""
    jobs = (rules_for(desk, job_meant(desk, said)),) if said.category else all_rules(desk)
    if not jobs:
        raise refused("no jobs")
    first = said.first or first_of_month(today(desk))
    last = max(first, min(said.last or today(desk), today(desk)))
    return EarningsView(first, last, tuple(sheet_of(desk, each, first, last) for each in jobs))
