"""What a new person starts with, out of the settings."""

from __future__ import annotations

from datetime import datetime

from bot.settings import JobSettings, Settings
from storage.records import Category, Job, JobRate, Person, Step


def newcomer(settings: Settings, address: str, now: datetime) -> Person:
    """A person at ``address`` with the settings' place, hours and times, at the start of the first conversation."""
    own, messages = settings.person, settings.messages
    return Person(
        id=0,
        address=address,
        zone=own.zone,
        joined=now,
        place_name=own.place,
        latitude=own.latitude,
        longitude=own.longitude,
        waking_start=own.waking_start,
        waking_end=own.waking_end,
        week_starts=own.week_starts,
        date_order=own.dates,
        clock_style=own.clock,
        decimals=own.decimals,
        morning_at=messages.morning,
        evening_at=messages.evening,
        recap_at=messages.recap,
        free_share=own.free_share,
        look=own.look,
        pictures=own.pictures,
        step=Step.NEW,
    )


def first_categories(settings: Settings) -> tuple[Category, ...]:
    """The settings' categories, not kept yet."""
    return tuple(Category(0, each.name, each.section, each.aliases, each.colour) for each in settings.categories)


def first_jobs(settings: Settings) -> tuple[tuple[str, Job, tuple[JobRate, ...]], ...]:
    """Each job with its category's name, for want of an id, and with its rates."""
    return tuple(
        (each.category, _first_job(each), tuple(JobRate(0, 0, since, per_hour) for since, per_hour in each.rates)) for each in settings.jobs
    )


def _first_job(each: JobSettings) -> Job:
    return Job(
        id=0,
        category_id=0,
        employer=each.employer,
        pay_period=each.pay_period,
        week_starts=each.workweek_starts,
        anchor=each.anchor,
        payday_after=each.payday_after,
        rounding=each.rounding,
        breaks=each.breaks,
        overtime=each.overtime,
        currency=each.currency,
        remind=each.payday_reminder,
        month_starts=each.month_starts,
    )
