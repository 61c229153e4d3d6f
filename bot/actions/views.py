"""What the person asks to see."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Literal

from bot.actions.agenda import agenda, busy_on, free_on, free_times, minutes_needed
from bot.actions.calendars import show_calendars
from bot.actions.clock import running_words
from bot.actions.day_asked import how_full, lines_to_come, whats_next
from bot.actions.earnings import show_earnings
from bot.actions.exporting import show_export
from bot.actions.hours_asked import show_hours
from bot.actions.jobs import show_jobs
from bot.actions.months import month_recap_asked, show_month
from bot.actions.naming import category_name, category_names
from bot.actions.open_tasks import open_for, tasks_for
from bot.actions.pictures import show_hours_picture, show_week_page, show_week_picture
from bot.actions.public_holidays import holidays_of
from bot.actions.recap import show_recap
from bot.actions.routines import show_routines
from bot.actions.skies import cautions_for, weather_on
from bot.actions.task_time import as_left
from bot.actions.times_asked import show_times
from bot.actions.timesheets import timesheet
from bot.actions.today import planned_month, planned_week, today
from bot.actions.week_ahead import week_ahead
from bot.language.meaning import Show
from bot.rules.hours import spent_by_category
from bot.rules.weeks import DAYS_A_WEEK, first_of_month, first_of_week
from bot.voice.replies import (
    DayView,
    FreeTimes,
    GoalsView,
    Help,
    OpenTasks,
    Reply,
    SettingsView,
    TasksView,
)
from storage.desk import Desk
from storage.records import Goal, Horizon, TaskState

A_WEEK = timedelta(days=7)


def show(desk: Desk, said: Show) -> Reply:
    """The view asked for."""
    if said.what == "help":
        return _help(desk, said)
    return VIEWS[said.what](desk, said)


def _help(desk: Desk, said: Show) -> Help:
    """Help with the person's own names in its examples, paid work first."""
    paid = {job.category_id for job in desk.jobs.all()}
    categories = desk.categories.all()
    jobs = tuple(category.name for category in categories if category.id in paid)
    return Help(said.topic, jobs, tuple(category.name for category in categories if category.id not in paid))


def day_view(desk: Desk, day: date) -> DayView:
    """All that ``day`` holds, with the weather where a forecast is kept."""
    weather, missing = weather_on(desk, day)
    tasks = as_left(desk, (task for task in tasks_for(desk, day) if task.state is not TaskState.DROPPED))
    spent = spent_by_category(desk.stints.on(day))
    occurrences = agenda(desk, day, day)
    names = category_names(desk)
    return DayView(
        day=day,
        occurrences=occurrences,
        tasks=tasks,
        goals=waiting_goals(desk, day),
        free=free_on(desk, day),
        needed_minutes=minutes_needed(tasks),
        spent=tuple((names[id], minutes) for id, minutes in spent.items()),
        running=running_words(desk) if day == today(desk) else None,
        weather=weather,
        weather_missing=missing,
        cautions=cautions_for(desk, occurrences),
        holiday=holidays_of(desk, day, day).get(day),
        runs_in=tuple(each for each in busy_on(desk, day) if each.day < day),
    )


def waiting_goals(desk: Desk, day: date) -> tuple[Goal, ...]:
    """Open goals of the week of ``day`` that no open task of today or later serves yet."""
    week = first_of_week(day, desk.person.week_starts)
    served = {task.goal_id for task in (*open_for(desk, day), *desk.tasks.open_after(day))}
    return tuple(goal for goal in desk.goals.open_for(Horizon.WEEK, week) if goal.id not in served)


def _show_day(desk: Desk, said: Show) -> Reply:
    """The day with what was accepted of its plan, without a word on a forecast that nobody asked for.

    Or its tasks alone, what is next of it, whether it is full, or when it is free.
    """
    view = day_view(desk, said.day or today(desk))
    if said.topic == "tasks":
        return TasksView(view.day, view.tasks)
    view = replace(view, weather_missing="not asked", planned=lines_to_come(desk, view.day))
    if said.topic == "next":
        return whats_next(desk, view)
    if said.topic == "free times":
        return FreeTimes(view, free_times(desk, view.day))
    return how_full(view, said.topic) if said.topic in ("full", "free") else view


def _show_open_tasks(desk: Desk, said: Show) -> Reply:
    """The open tasks of a span, with what earlier days left open where today is in it; or all of them."""
    if said.first is None or said.last is None:
        return OpenTasks(desk.tasks.open())
    left = desk.tasks.open_before(said.first) if said.first <= today(desk) <= said.last else ()
    return OpenTasks((*left, *desk.tasks.open_between(said.first, said.last)), (said.first, said.last))


def _show_week(desk: Desk, said: Show) -> Reply:
    asked = said.day or said.first
    view = week_ahead(desk, planned_week(desk) if asked is None else first_of_week(asked, desk.person.week_starts))
    ahead = tuple(day for day in view.days if day.day >= today(desk))
    return replace(view, days=ahead) if ahead else view


def _show_recap(desk: Desk, said: Show) -> Reply:
    """That of a week, or of a month where the span asked for is longer."""
    of_a_month = said.first is not None and said.last is not None and (said.last - said.first).days >= DAYS_A_WEEK
    return month_recap_asked(desk, said) if of_a_month else show_recap(desk, said)


def _show_goals(desk: Desk, said: Show) -> Reply:
    """Those of the week and month that planning is about, or of the week or month that was asked for."""
    week, month = planned_week(desk), planned_month(desk)
    only: Literal["week", "month"] | None = None
    if said.first is not None and said.last is not None:
        only = "month" if said.last - said.first >= A_WEEK else "week"
        week, month = first_of_week(said.first, desk.person.week_starts), first_of_month(said.first)
    return GoalsView(desk.goals.open_for(Horizon.WEEK, week), desk.goals.open_for(Horizon.MONTH, month), week, month, only)


def _show_settings(desk: Desk, said: Show) -> Reply:
    categories = tuple((each.name, each.aliases, each.section) for each in desk.categories.all())
    jobs = tuple((category_name(desk, job.category_id) or "", job.employer) for job in desk.jobs.all())
    return SettingsView(desk.person, categories, jobs)


VIEWS = {
    "day": _show_day,
    "tasks": _show_open_tasks,
    "week": _show_week,
    "month": show_month,
    "hours": show_hours,
    "goals": _show_goals,
    "timesheet": timesheet,
    "settings": _show_settings,
    "calendars": show_calendars,
    "recap": _show_recap,
    "routines": show_routines,
    "job": show_jobs,
    "week_picture": show_week_picture,
    "hours_picture": show_hours_picture,
    "week_page": show_week_page,
    "export": show_export,
    "earnings": show_earnings,
    "times": show_times,
}
