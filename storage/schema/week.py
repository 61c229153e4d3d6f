"""The tables of a person's week: all that a person can change, and undo."""

from __future__ import annotations

from sqlalchemy import Column, Float, Index, Integer, Table, Text, UniqueConstraint, func, text

from storage.records import ClockStyle, DateOrder, DecimalMark, GoalState, Horizon, Look, Step, TaskState, Weekday
from storage.schema.building import check, may, metadata, must, names, shelf, some
from storage.types import DAYS, IDS, NAMES, Choice, Flag, LocalDay, TimeOfDay, UtcInstant

people = Table(
    "people",
    metadata,
    Column("id", Integer, primary_key=True),
    must("address", Text, unique=True),
    must("zone", Text),
    must("joined", UtcInstant),
    may("place_name", Text),
    may("latitude", Float),
    may("longitude", Float),
    must("waking_start", TimeOfDay),
    must("waking_end", TimeOfDay),
    must("week_starts", Choice(Weekday)),
    must("date_order", Choice(DateOrder)),
    must("morning_at", TimeOfDay),
    must("evening_at", TimeOfDay),
    must("recap_at", TimeOfDay),
    must("free_share", Integer),
    must("step", Choice(Step)),
    must("holidays", Flag),
    must("decimals", Choice(DecimalMark), server_default=DecimalMark.POINT.value),
    must("look", Choice(Look), server_default=Look.LIGHT.value),
    must("pictures", Flag, server_default=text("1")),
    may("quiet_until", LocalDay),
    must("travel_minutes", Integer, server_default="0"),
    must("clock_style", Choice(ClockStyle), server_default=ClockStyle.TWENTY_FOUR.value),
    check("latitude", "latitude BETWEEN -90 AND 90"),
    check("longitude", "longitude BETWEEN -180 AND 180"),
    check("place", "(latitude IS NULL) = (longitude IS NULL)"),
    check("free_share", "free_share BETWEEN 0 AND 100"),
    sqlite_autoincrement=True,
)

sections = shelf(
    "sections",
    must("name", Text),
    UniqueConstraint("person_id", "name"),
    check("name", "name <> ''"),
)
Index("uq_sections_person_id_lower_name", sections.c.person_id, func.lower(sections.c.name), unique=True)

categories = shelf(
    "categories",
    must("name", Text),
    must("section", Text),
    must("aliases", NAMES),
    must("colour", Text),
    names("section", "sections", "name"),
    check("name", "name <> ''"),
)
Index("uq_categories_person_id_lower_name", categories.c.person_id, func.lower(categories.c.name), unique=True)

commitments = shelf(
    "commitments",
    must("title", Text),
    must("starts", UtcInstant),
    must("ends", UtcInstant),
    must("zone", Text),
    may("category_id", Integer),
    may("rule", Text),
    must("major", Flag),
    must("outdoors", Flag),
    must("all_day", Flag),
    must("except_days", DAYS),
    must("cancelled", Flag),
    may("minutes_before", Integer),
    may("minutes_after", Integer),
    names("category_id", "categories"),
    check("ends", "ends > starts"),
    Index(None, "person_id", "starts"),
)

routines = shelf(
    "routines",
    must("title", Text),
    must("minutes", Integer),
    must("rule", Text),
    must("since", LocalDay),
    may("window_start", TimeOfDay),
    may("window_end", TimeOfDay),
    may("category_id", Integer),
    names("category_id", "categories"),
    check("minutes", "minutes >= 0"),
)

goals = shelf(
    "goals",
    must("title", Text),
    must("horizon", Choice(Horizon)),
    must("period", LocalDay),
    must("section", Text),
    may("category_id", Integer),
    may("estimate_minutes", Integer),
    must("state", Choice(GoalState)),
    must("carried", Integer),
    may("origin_id", Integer),
    names("section", "sections", "name"),
    names("category_id", "categories"),
    names("origin_id", "goals"),
    check("estimate_minutes", "estimate_minutes >= 0"),
    check("carried", "carried >= 0"),
    Index(None, "person_id", "period"),
    some("ix_goals_open", "state = 'open'", "person_id", "period"),
)

tasks = shelf(
    "tasks",
    must("title", Text),
    must("day", LocalDay),
    must("number", Integer),
    may("category_id", Integer),
    may("goal_id", Integer),
    may("estimate_minutes", Integer),
    must("state", Choice(TaskState)),
    must("pushes", DAYS),
    must("outdoors", Flag),
    may("settled", LocalDay),
    names("category_id", "categories"),
    names("goal_id", "goals"),
    check("number", "number >= 1"),
    check("estimate_minutes", "estimate_minutes >= 0"),
    Index(None, "person_id", "day"),
    Index(None, "person_id", "goal_id"),
    some("ix_tasks_open", "state = 'open'", "person_id", "day"),
    some("ix_tasks_settled", "settled IS NOT NULL", "person_id", "settled"),
)

targets = shelf(
    "targets",
    must("category_id", Integer),
    must("since", LocalDay),
    may("at_least_minutes", Integer),
    may("at_most_minutes", Integer),
    names("category_id", "categories"),
    check("at_least_minutes", "at_least_minutes >= 0"),
    check("at_most_minutes", "at_most_minutes >= 0"),
)

stints = shelf(
    "stints",
    must("category_id", Integer),
    must("day", LocalDay),
    must("minutes", Integer),
    may("starts", UtcInstant),
    may("ends", UtcInstant),
    must("break_minutes", Integer),
    must("task_ids", IDS),
    may("note", Text),
    names("category_id", "categories"),
    check("minutes", "minutes >= 0"),
    check("break_minutes", "break_minutes >= 0"),
    check("ends", "ends > starts"),
    Index(None, "person_id", "day"),
    # With the minutes in it, hours of any span are added up without a look at the rows.
    Index(None, "person_id", "category_id", "day", "minutes"),
    Index(None, "person_id", "ends"),
    some("ix_stints_on_tasks", "task_ids <> '[]'", "person_id", "day", "minutes", "task_ids"),
)

blocks = shelf(
    "blocks",
    must("day", LocalDay),
    must("starts", UtcInstant),
    must("ends", UtcInstant),
    must("title", Text),
    may("category_id", Integer),
    may("task_id", Integer),
    may("routine_id", Integer),
    may("goal_id", Integer),
    must("accepted", Flag),
    names("category_id", "categories"),
    check("ends", "ends > starts"),
    Index(None, "person_id", "day"),
)

sick_days = shelf(
    "sick_days",
    must("day", LocalDay),
    UniqueConstraint("person_id", "day"),
)

running = shelf(
    "running",
    must("category_id", Integer),
    must("starts", UtcInstant),
    names("category_id", "categories"),
    UniqueConstraint("person_id"),
)

WEEK: tuple[Table, ...] = (
    people,
    sections,
    categories,
    commitments,
    routines,
    goals,
    tasks,
    targets,
    stints,
    blocks,
    running,
    sick_days,
)
"""Those of them whose every change is told by a journal entry and can be undone: all."""
