"""What a reader must know of the person to understand a reply: given, never looked up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time

from storage.records import DateOrder, Weekday


@dataclass(frozen=True, slots=True)
class Named:
    """A category as replies may name it. ``section`` is its section's name."""

    name: str
    aliases: tuple[str, ...] = ()
    section: str = "personal"
    is_job: bool = False


@dataclass(frozen=True, slots=True)
class Planned:
    """Hours planned today for a category, local times; ``title`` is what the commitment, task or routine is called.

    Those of a day's plan say what they are for: ``task_id``, or that ``routine`` is their title. ``told``: hours tell of them already.
    """

    category: str
    start: time
    end: time
    title: str = ""
    task_id: int | None = None
    routine: bool = False
    told: bool = False


@dataclass(frozen=True, slots=True)
class Context:
    """``now`` is the person's local time, aware of its zone.

    ``tasks`` are the open tasks of today as (number, title), ``routines`` the titles of all routines,
    ``goals`` those of the month's open goals, ``week_goals`` of the week's, ``titles`` both these and of what was or is fixed
    in the week until today;
    ``fixed`` the titles of what is fixed from today to the week's end, and of all that recurs;
    ``planned`` are today's commitments, ``blocks`` what was accepted of today's plan;
    ``clocked_in`` the category whose clock runs, since ``clocked_since`` of today;
    ``planned`` are today's hours, ``ran_in`` those of yesterday that end today;
    ``last_end`` is when the latest of today's hours with a time ended; ``ran_over``: hours of yesterday ended today.
    """

    now: datetime
    categories: tuple[Named, ...] = ()
    sections: tuple[str, ...] = ("personal", "work")
    waking_start: time = time(6)
    waking_end: time = time(21)
    week_starts: Weekday = Weekday.MONDAY
    date_order: DateOrder = DateOrder.DAY_MONTH
    tasks: tuple[tuple[int, str], ...] = ()
    routines: tuple[str, ...] = ()
    goals: tuple[str, ...] = ()
    week_goals: tuple[str, ...] = ()
    titles: tuple[str, ...] = ()
    fixed: tuple[str, ...] = ()
    clocked_in: str | None = None
    clocked_since: time | None = None
    planned: tuple[Planned, ...] = ()
    blocks: tuple[Planned, ...] = ()
    ran_in: tuple[Planned, ...] = ()
    last_end: time | None = None
    ran_over: bool = False
