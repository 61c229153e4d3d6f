"""The recap of the week that ends, and the week ahead."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.estimating import ratios_moved
from bot.actions.jobs import rules_for
from bot.actions.naming import category_names
from bot.actions.tally import hours_between, planned_minutes
from bot.actions.today import today
from bot.actions.week_ahead import week_ahead
from bot.actions.working_time import work_notes
from bot.language.meaning import Show
from bot.rules.in_the_way import InTheWay, contested, in_the_way
from bot.rules.local_time import ONE_DAY, local_day
from bot.rules.observations import CarriedOften, CategoryWeeks, OverMost, WeekFacts, observations
from bot.rules.usual import FEWEST, began_on, mean_by_category, mean_of, weeks_before
from bot.rules.week_weather import week_weather
from bot.rules.weeks import DAYS_A_WEEK, last_of_week
from bot.voice.replies import CategoryHours, JobSoFar, Recap, TasksOfWeek, WeekAhead
from storage.desk import Desk
from storage.records import Block, Goal, GoalState, Horizon, Occurrence, Task, TaskState


@dataclass(frozen=True, slots=True)
class _Week:
    """What the records say of a week. ``earlier`` are minutes by category id of the weeks that its mean is over, by their first day."""

    first: date
    last: date
    occurrences: tuple[Occurrence, ...]
    blocks: tuple[Block, ...]
    tasks: tuple[Task, ...]
    settled: tuple[Task, ...]
    goals: tuple[Goal, ...]
    earlier: Mapping[date, Mapping[int, int]]


def recap(desk: Desk, day: date, *, late: bool = False) -> Recap:
    """The week that ends with ``day``: where its hours went, beside what was planned, wanted and usual."""
    week = _week(desk, day)
    unmet = tuple(goal for goal in week.goals if goal.state is GoalState.OPEN)
    usual = mean_by_category(tuple(week.earlier.values())) if len(week.earlier) >= FEWEST else None
    planned = planned_minutes(week.occurrences, week.blocks, week.tasks)
    hours = hours_between(desk, week.first, day, desk.stints.minutes_by_category(week.first, day), planned=planned, usual=usual)
    return Recap(
        week.first,
        day,
        hours,
        _jobs(desk, day),
        tuple(goal for goal in week.goals if goal.state is GoalState.MET),
        unmet,
        _tasks(desk, week),
        _in_the_way(desk, week),
        week_weather(desk.weather.between(week.first, day), week.first, day),
        observations(_facts(desk, week, hours, unmet)),
        late,
        work_notes(desk, week.first, day),
        sick=tuple(each.day for each in desk.sick_days.between(week.first, day)),
    )


def show_recap(desk: Desk, said: Show) -> Recap:
    """The recap of the week asked for, by default of this one; of a week that is not over what of it is settled already."""
    day = min(said.last or today(desk), today(desk))
    last = last_of_week(day, desk.person.week_starts)
    whole = replace(recap(desk, last), whole=said.topic == "all")
    if last <= today(desk):
        return whole
    seen = week_weather(desk.weather.between(whole.first, day), whole.first, day)
    sure = tuple(each for each in whole.observations if isinstance(each, OverMost | CarriedOften))
    return replace(whole, jobs=_jobs(desk, day), weather=seen, observations=sure, work=work_notes(desk, whole.first, day), so_far=True)


def after_recap(desk: Desk, day: date) -> WeekAhead:
    """The week that starts after ``day``, with its goals and those that will carry into it."""
    view = week_ahead(desk, day + ONE_DAY)
    return WeekAhead(replace(view, goals=(*desk.goals.open_before(Horizon.WEEK, day + ONE_DAY), *view.goals)))


def _week(desk: Desk, last: date) -> _Week:
    first = last - timedelta(days=DAYS_A_WEEK - 1)
    began = began_on(desk.stints.first_day(), local_day(desk.person.joined, desk.person.zone))
    before = weeks_before(first, began, desk.person.week_starts)
    return _Week(
        first,
        last,
        agenda(desk, first, last),
        desk.blocks.between(first, last),
        desk.tasks.between(first, last),
        desk.tasks.settled_between(first, last),
        desk.goals.for_period(Horizon.WEEK, first),
        {each: desk.stints.minutes_by_category(each, each + timedelta(days=DAYS_A_WEEK - 1)) for each in before},
    )


def _jobs(desk: Desk, day: date) -> tuple[JobSoFar, ...]:
    """The jobs that have hours in their pay period so far."""
    names = category_names(desk)
    found = []
    for job in desk.jobs.all():
        first, _ = rules_for(desk, job).period_of(day)
        minutes = desk.stints.minutes_by_category(first, day).get(job.category_id, 0)
        if minutes:
            found.append(JobSoFar(names[job.category_id], first, minutes))
    return tuple(found)


def _tasks(desk: Desk, week: _Week) -> TasksOfWeek:
    """A task that was pushed and then closed or dropped within the week counts as that alone."""
    settled = {task.id for task in week.settled}
    pushed = [task for task in desk.tasks.pushed_between(week.first, week.last) if task.id not in settled]
    states = [task.state for task in week.settled]
    return TasksOfWeek(states.count(TaskState.CLOSED), len(pushed), states.count(TaskState.DROPPED))


def _in_the_way(desk: Desk, week: _Week) -> tuple[InTheWay, ...]:
    days = {block.day for block in contested(week.blocks, week.occurrences)}
    if not days:
        return ()
    blocks = [block for block in week.blocks if block.day in days]
    stints = desk.stints.between(min(days) - ONE_DAY, max(days) + ONE_DAY)
    done = {task.id for task in week.settled if task.state is TaskState.CLOSED}
    return in_the_way(blocks, week.occurrences, stints, done, desk.now)


def _facts(desk: Desk, week: _Week, hours: Sequence[CategoryHours], unmet: tuple[Goal, ...]) -> WeekFacts:
    """What the observations are made of."""
    ids = {name: id for id, name in category_names(desk).items()}
    least = {each: {target.category_id: target.at_least_minutes for target in desk.targets.in_force(each)} for each in week.earlier}

    def earlier(id: int) -> tuple[tuple[int, int | None], ...]:
        return tuple((minutes.get(id, 0), least[each].get(id)) for each, minutes in week.earlier.items())

    return WeekFacts(
        tuple(CategoryWeeks(item.category, ((item.spent, item.at_least), *earlier(ids[item.category])), item.at_most) for item in hours),
        desk.stints.minutes_of_days(week.first, week.last),
        unmet,
        mean_of([sum(minutes.values()) for minutes in week.earlier.values()]) if len(week.earlier) >= FEWEST else None,
        ratios_moved(desk, week.first - ONE_DAY, week.last),
    )
