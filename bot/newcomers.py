"""What a new person starts with, out of the settings."""

from __future__ import annotations

from datetime import datetime

from bot.settings import Settings
from storage.records import Category, Job, Person, Step


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
        morning_at=messages.morning,
        evening_at=messages.evening,
        recap_at=messages.recap,
        free_share=own.free_share,
        step=Step.NEW,
    )


def first_categories(settings: Settings) -> tuple[Category, ...]:
    """The settings' categories, not kept yet."""
    return tuple(Category(0, each.name, each.section, each.aliases, each.colour) for each in settings.categories)


def first_jobs(settings: Settings) -> tuple[tuple[str, Job], ...]:
    """Each job with its category's name, for want of an id."""
    return tuple((each.category, Job(0, 0, each.employer, each.pay_period)) for each in settings.jobs)
