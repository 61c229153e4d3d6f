"""The recap of a week, the week ahead, and the recap of a month."""

from __future__ import annotations

from functools import singledispatch
from itertools import groupby
from typing import Literal

from bot.language.meaning import Drop, Push, Show
from bot.language.pick import Pick
from bot.language.plan_meaning import MakePlan
from bot.rules.in_the_way import InTheWay
from bot.rules.observations import BelowLeast, CarriedOften, EstimatesMoved, FewerThanUsual, FullestDay, OverMost
from bot.rules.week_weather import WeekWeather
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice.manners import DAYS, Manners, count_text, hours_text, listed, month_text, title_text
from bot.voice.message import Message, Page, Rows, Tap
from bot.voice.post_said import LATE
from bot.voice.replies import JobSoFar, MonthRecap, Recap, TasksOfWeek, WeekAhead
from bot.voice.sums_said import compared_line, hours_lines
from bot.voice.tasks_said import goal_words
from bot.voice.views_said import goals_of_week, week_lines
from bot.voice.working_time_words import names_all_missing, work_lines
from storage.records import Goal

Period = Literal["week", "month"]

MOST_HOURS = 8
MOST_GOALS = 5
MOST_IN_THE_WAY = 2
MOST_UNKNOWN = 3


def recap(reply: Recap, manners: Manners) -> Message:
    """The week that ends: hours, goals with a row of buttons each, tasks, what got in the way, weather, observations."""
    page = Page()
    page.heading(f"Your week{' so far' if reply.so_far else ''}, {manners.days(reply.first, reply.last)}")
    if reply.late:
        page.line(LATE)
    page.some(hours_lines(reply.hours) or ["No hours logged."], MOST_HOURS, "hours")
    page.lines(_job_lines(reply.jobs, manners))
    _goals(page, reply.met, reply.unmet, "goals")
    page.gap()
    page.lines(_tasks_lines(reply.tasks))
    page.lines([f"Sick: {', '.join(DAYS[day.weekday()] for day in reply.sick)}."] if reply.sick else [])
    page.lines(_in_the_way_lines(reply.in_the_way))
    page.lines(_weather_lines(reply.weather))
    page.lines([observed(each, manners) for each in reply.observations])
    page.lines(work_lines(reply.work, manners, whole=reply.whole))
    return page.message((*_rows(reply.unmet, "To the month", "week", "month"), *_all_missing_rows(reply)))


def _all_missing_rows(reply: Recap) -> Rows:
    """A button that names all planned hours without any noted, where the recap names a few."""
    named = reply.whole or names_all_missing(reply.work)
    return () if named else ((Tap("All that was not noted", Show("recap", first=reply.first, last=reply.last, topic="all")),),)


def _job_lines(jobs: tuple[JobSoFar, ...], manners: Manners) -> list[str]:
    """One line for all jobs whose pay period began on the same day."""
    ordered = sorted(jobs, key=lambda job: job.first)
    return [
        f"Pay period since {manners.day(first)}: " + ", ".join(f"{title_text(job.category)} {hours_text(job.minutes)}" for job in alike)
        for first, alike in groupby(ordered, key=lambda job: job.first)
    ]


def _goals(page: Page, met: tuple[Goal, ...], unmet: tuple[Goal, ...], where: str) -> None:
    if met or unmet:
        page.gap()
    if met:
        page.line(f"Goals met: {listed([goal.title for goal in met])}.")
    if unmet:
        page.line("Not met yet; left untouched, they carry over by themselves:")
        page.some([f"{number} {goal_words(goal)}" for number, goal in enumerate(unmet, 1)], MOST_GOALS, where)


def _tasks_lines(tasks: TasksOfWeek) -> list[str]:
    """ "Closed 3 tasks, dropped 1; 1 went on to a later day.": pushed by the person, or by itself."""
    some = [(done, count) for done, count in (("closed", tasks.closed), ("dropped", tasks.dropped)) if count]
    words = [f"{done} {count if at else count_text(count, 'task')}" for at, (done, count) in enumerate(some)]
    later = [f"{tasks.pushed if some else count_text(tasks.pushed, 'task')} went on to a later day"] if tasks.pushed else []
    said = "; ".join([*([", ".join(words)] if words else []), *later])
    return [f"{title_text(said)}."] if said else []


def _in_the_way_lines(found: tuple[InTheWay, ...]) -> list[str]:
    """What took planned hours, and from what."""
    if not found:
        return []
    words = [f"{each.title} took {hours_text(each.minutes)} from {listed(list(each.took_from))}" for each in found[:MOST_IN_THE_WAY]]
    more = [f"{len(found) - MOST_IN_THE_WAY} more"] if len(found) > MOST_IN_THE_WAY else []
    return [f"In the way: {'; '.join([*words, *more])}."]


def _weather_lines(weather: WeekWeather | None) -> list[str]:
    """The week in one line, as it was forecast each morning; days of which nothing was kept are named."""
    if weather is None:
        return []
    days = [DAYS[day.weekday()] for day in weather.wet]
    parts = [f"wet on {listed(days)}" if days else "no wet day"]
    known = sorted({round(value) for value in (weather.low, weather.high) if value is not None})
    if known:
        parts.append(" to ".join(map(str, known)) + " °C")
    if len(weather.unknown) > MOST_UNKNOWN:
        parts.append(f"known of {count_text(DAYS_A_WEEK - len(weather.unknown), 'day')} only")
    elif weather.unknown:
        parts.append(f"{listed([DAYS[day.weekday()] for day in weather.unknown])} not known")
    return [f"Weather as forecast: {', '.join(parts)}."]


@singledispatch
def observed(observation: object, manners: Manners) -> str:
    """An observation in words that judge nothing."""
    raise TypeError(observation)


@observed.register
def _(seen: OverMost, manners: Manners) -> str:
    return f"{hours_text(seen.minutes)} more {seen.category} than you want at most."


@observed.register
def _(seen: BelowLeast, manners: Manners) -> str:
    return f"{title_text(seen.category)} is below what you want at least, {seen.weeks} weeks in a row."


@observed.register
def _(seen: CarriedOften, manners: Manners) -> str:
    return f"Carried {seen.times} times by now: {seen.title}."


@observed.register
def _(seen: FewerThanUsual, manners: Manners) -> str:
    return f"Fewer hours than usual: {hours_text(seen.minutes)} where {hours_text(seen.usual)} are usual."


@observed.register
def _(seen: EstimatesMoved, manners: Manners) -> str:
    now, before = manners.ratio(seen.now), manners.ratio(seen.before)
    return f"{title_text(seen.category)} tasks now take {now} times your estimates; {before} a week ago."


@observed.register
def _(seen: FullestDay, manners: Manners) -> str:
    return f"Most hours on {manners.day(seen.day)}: {hours_text(seen.minutes)}."


def week_ahead(reply: WeekAhead, manners: Manners) -> Message:
    """The days of the next week, and a button for its plan."""
    page = Page()
    days = reply.view.days
    page.heading(f"The week ahead, {manners.days(days[0].day, days[-1].day)}")
    page.lines(week_lines(reply.view, manners))
    goals_of_week(page, reply.view)
    return page.message(((Tap("Plan the week", MakePlan("week", days[0].day)),),))


def month_recap(reply: MonthRecap, manners: Manners) -> Message:
    """The month that ends, or as it stands: hours beside those before, goals met, and a row of buttons for each that waits."""
    page = Page()
    page.heading(f"Your month{' so far' if reply.so_far else ''}, {month_text(reply.month)}")
    if reply.late:
        page.line(LATE)
    page.lines(hours_lines(reply.hours) or ["No hours logged."])
    if reply.before is not None:
        page.line(compared_line(reply.before, manners))
    page.lines([f"Still to come: {listed([f'{name} {hours_text(minutes)}' for name, minutes in reply.to_come])}."] if reply.to_come else [])
    _goals(page, reply.met, reply.unmet, "month")
    return page.message(_rows(reply.unmet, "Next week", "month", "week"))


def _rows(goals: tuple[Goal, ...], other: str, carry: Period, aside: Period) -> Rows:
    """Carry, put elsewhere or drop each of the first goals; carry all."""
    rows = [_goal_row(number, goal, other, carry, aside) for number, goal in enumerate(goals[:MOST_GOALS], 1)]
    if len(goals) > 1:
        rows.append((Tap("Carry all", Push(Pick(goal_ids=tuple(goal.id for goal in goals)), carry)),))
    return tuple(rows)


def _goal_row(number: int, goal: Goal, other: str, carry: Period, aside: Period) -> tuple[Tap, ...]:
    pick = Pick(goal_ids=(goal.id,))
    return (
        Tap(f"Carry {number}", Push(pick, carry)),
        Tap(f"{other} {number}", Push(pick, aside)),
        Tap(f"Drop {number}", Drop(pick)),
    )
