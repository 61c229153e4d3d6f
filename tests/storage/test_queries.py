"""Every query gives what a plain look through all records would."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storage.database import Database
from storage.desk import Desk
from storage.records import Commitment, Goal, GoalState, Horizon, Person, Stint, Target, Task, TaskState, ToldWeather, Work
from tests.storage.given import HOUR, MONDAY, NOW, admit

DAYS = st.integers(-3, 3).map(lambda shift: MONDAY + timedelta(days=shift))
INSTANTS = st.integers(-12, 12).map(lambda shift: NOW + shift * HOUR)
CATEGORIES = st.sampled_from([1, 2])
OWN = Callable[[], Desk]

STINTS = st.lists(st.builds(Stint, st.just(0), CATEGORIES, DAYS, st.integers(0, 600)), max_size=6)
GOALS = st.lists(
    st.builds(Goal, st.just(0), st.just("Alto part"), st.sampled_from(Horizon), DAYS, st.just("work"), state=st.sampled_from(GoalState)),
    max_size=8,
)
TASKS = st.lists(st.builds(Task, st.just(0), st.just("Wheel"), DAYS, st.integers(1, 4), state=st.sampled_from(TaskState)), max_size=8)
TARGETS = st.lists(st.builds(Target, st.just(0), CATEGORIES, DAYS, st.integers(0, 600)), max_size=6)


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Database:
    """One database for all examples; each has a person of its own."""
    folder: Path = tmp_path_factory.mktemp("queries")
    database = Database(f"sqlite:///{folder / 'week.db'}")
    admit(database, "terminal:neighbour")
    return database


def someone(database: Database) -> Person:
    return admit(database, f"terminal:{len(database.people.all())}")


@settings(max_examples=40)
@given(stints=STINTS, first=DAYS, last=DAYS, category_id=CATEGORIES)
def test_stints_are_found_by_day_and_category(shared: Database, stints: list[Stint], first: date, last: date, category_id: int) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        kept = [desk.stints.add(stint) for stint in stints]
        between = {stint for stint in kept if first <= stint.day <= last}
        assert set(desk.stints.between(first, last)) == between
        assert set(desk.stints.on(first)) == {stint for stint in kept if stint.day == first}
        mine = desk.stints.for_category_between(category_id, first, last)
        assert set(mine) == {stint for stint in between if stint.category_id == category_id}
        assert [stint.day for stint in mine] == sorted(stint.day for stint in mine)
        assert desk.stints.latest() == (kept[-1] if kept else None)
        desk.journal.write("Logged", "k")


@settings(max_examples=40)
@given(spans=st.lists(st.tuples(INSTANTS, st.integers(1, 6)), max_size=6), start=INSTANTS, hours=st.integers(1, 6))
def test_overlaps_share_a_moment_and_touching_is_no_overlap(
    shared: Database, spans: list[tuple[datetime, int]], start: datetime, hours: int
) -> None:
    end = start + hours * HOUR
    with shared.desk(someone(shared).id, NOW) as desk:
        desk.stints.add(Stint(0, 1, MONDAY, 60))
        kept = [desk.stints.add(Stint(0, 1, MONDAY, 60, begin, begin + length * HOUR)) for begin, length in spans]
        dated = [desk.commitments.add(Commitment(0, "Fair", begin, begin + length * HOUR, "UTC")) for begin, length in spans]
        desk.commitments.add(Commitment(0, "Weekly", start, end, "UTC", rule="FREQ=WEEKLY"))
        # Two spans share a moment when the later start comes before the earlier end.
        assert set(desk.stints.overlapping(start, end)) == {
            each for each in kept if each.starts and each.ends and max(each.starts, start) < min(each.ends, end)
        }
        found = desk.commitments.singles_between(start, end)
        assert set(found) == {each for each in dated if max(each.starts, start) < min(each.ends, end)}
        assert [each.starts for each in found] == sorted(each.starts for each in found)
        desk.journal.write("Logged", "k")


@settings(max_examples=40)
@given(starts=st.lists(INSTANTS, max_size=6), before=INSTANTS)
def test_recurring_commitments_are_those_that_began_before(shared: Database, starts: list[datetime], before: datetime) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        desk.commitments.add(Commitment(0, "Once", NOW - 100 * HOUR, NOW, "UTC"))
        kept = [desk.commitments.add(Commitment(0, "Choir", each, each + HOUR, "UTC", rule="FREQ=WEEKLY")) for each in starts]
        assert set(desk.commitments.recurring(before)) == {each for each in kept if each.starts < before}
        desk.journal.write("Planned", "k")


@settings(max_examples=40)
@given(goals=GOALS, horizon=st.sampled_from(Horizon), period=DAYS)
def test_goals_are_found_by_horizon_and_period(shared: Database, goals: list[Goal], horizon: Horizon, period: date) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        kept = [desk.goals.add(goal) for goal in goals]
        alike = [goal for goal in kept if goal.horizon is horizon]
        now_wanted = [goal for goal in alike if goal.period == period]
        assert list(desk.goals.for_period(horizon, period)) == now_wanted
        assert list(desk.goals.open_for(horizon, period)) == [goal for goal in now_wanted if goal.state is GoalState.OPEN]
        earlier = [goal for goal in alike if goal.period < period and goal.state is GoalState.OPEN]
        assert list(desk.goals.open_before(horizon, period)) == sorted(earlier, key=lambda goal: (goal.period, goal.id))
        desk.journal.write("Wanted", "k")


@settings(max_examples=40)
@given(tasks=TASKS, day=DAYS)
def test_tasks_are_found_by_day_in_the_order_of_their_numbers(shared: Database, tasks: list[Task], day: date) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        goal = desk.goals.add(Goal(0, "Alto part", Horizon.WEEK, MONDAY, "work"))
        kept = sorted((desk.tasks.add(task) for task in tasks), key=lambda task: (task.day, task.number, task.id))
        assert list(desk.tasks.on(day)) == [task for task in kept if task.day == day]
        assert list(desk.tasks.open_on(day)) == [task for task in kept if task.day == day and task.state is TaskState.OPEN]
        assert list(desk.tasks.open_before(day)) == [task for task in kept if task.day < day and task.state is TaskState.OPEN]
        assert list(desk.tasks.open_after(day)) == [task for task in kept if task.day > day and task.state is TaskState.OPEN]
        assert list(desk.tasks.between(MONDAY, day)) == [task for task in kept if MONDAY <= task.day <= day]
        assert desk.tasks.for_goal(goal.id) == ()
        served = desk.tasks.add(Task(0, "Sing", day, 9, goal_id=goal.id))
        assert desk.tasks.for_goal(goal.id) == (served,)
        desk.journal.write("Planned", "k")


@settings(max_examples=40)
@given(targets=TARGETS, week=DAYS)
def test_the_target_in_force_is_the_latest_of_each_category(shared: Database, targets: list[Target], week: date) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        kept = [desk.targets.add(target) for target in targets]
        wanted = []
        for category_id in (1, 2):
            begun = [target for target in kept if target.category_id == category_id and target.since <= week]
            wanted += [max(begun, key=lambda target: (target.since, target.id))] if begun else []
        assert list(desk.targets.in_force(week)) == wanted
        desk.journal.write("Wanted", "k")


@settings(max_examples=60)
@given(acts=st.lists(st.sampled_from(["add", "push", "undo"]), max_size=12))
def test_a_number_never_names_two_tasks_of_a_day_whatever_is_pushed_and_undone(shared: Database, acts: list[str]) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        for act in acts:
            _number_act(desk, act)
            numbers = [task.number for task in desk.tasks.on(MONDAY)]
            assert len(numbers) == len(set(numbers))
            assert desk.tasks.next_number(MONDAY) not in numbers


def _number_act(desk: Desk, act: str) -> None:
    on = desk.tasks.on(MONDAY)
    undoable = desk.journal.latest_to_undo()
    if act == "add":
        desk.tasks.add(Task(0, "Wheel", MONDAY, desk.tasks.next_number(MONDAY)))
        desk.journal.write("Added", "k")
    elif act == "push" and on:
        later = MONDAY + timedelta(days=1)
        pushed = Task(on[0].id, on[0].title, later, desk.tasks.next_number(later), pushes=(MONDAY,))
        desk.tasks.change(pushed)
        desk.journal.write("Pushed", "k")
    elif act == "undo" and undoable:
        desk.journal.undo(undoable.id, "Undone", "k")


def test_the_number_of_a_task_pushed_away_is_not_given_again(database: Database, person: Person) -> None:
    with database.desk(person.id, NOW) as desk:
        assert desk.tasks.next_number(MONDAY) == 1
        desk.tasks.add(Task(0, "Wheel", MONDAY, 1))
        desk.tasks.add(Task(0, "Brakes", MONDAY + timedelta(days=1), 1, pushes=(MONDAY,)))
        assert desk.tasks.next_number(MONDAY) == 3
        assert desk.tasks.next_number(MONDAY + timedelta(days=1)) == 2
        desk.journal.write("Planned", "k")


@settings(max_examples=40)
@given(stints=STINTS, first=DAYS, last=DAYS)
def test_minutes_are_added_up_by_category_and_by_day(shared: Database, stints: list[Stint], first: date, last: date) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        for stint in stints:
            desk.stints.add(stint)
        between = [stint for stint in stints if first <= stint.day <= last]
        by_category = {id: sum(each.minutes for each in between if each.category_id == id) for id in {each.category_id for each in between}}
        by_day = {day: sum(each.minutes for each in between if each.day == day) for day in {each.day for each in between}}
        assert desk.stints.minutes_by_category(first, last) == by_category
        assert desk.stints.minutes_of_days(first, last) == by_day
        assert desk.stints.first_day() == min((stint.day for stint in stints), default=None)
        desk.journal.write("Logged", "k")


@settings(max_examples=40)
@given(
    tasks=st.lists(
        st.builds(
            Task,
            st.just(0),
            st.just("Wheel"),
            DAYS,
            st.integers(1, 4),
            estimate_minutes=st.sampled_from([None, 30]),
            state=st.sampled_from(TaskState),
            settled=st.none() | DAYS,
        ),
        max_size=8,
    ),
    pushes=st.lists(st.integers(1, 4), max_size=2),
    first=DAYS,
    last=DAYS,
)
def test_tasks_are_found_by_the_day_they_were_settled_pushed_from_or_estimated_for(
    shared: Database, tasks: list[Task], pushes: list[int], first: date, last: date
) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        kept = [desk.tasks.add(replace(task, pushes=tuple(task.day - timedelta(days=days) for days in pushes))) for task in tasks]
        assert set(desk.tasks.settled_between(first, last)) == {each for each in kept if each.settled and first <= each.settled <= last}
        assert set(desk.tasks.pushed_between(first, last)) == {each for each in kept if any(first <= day <= last for day in each.pushes)}
        closed = {each for each in kept if first <= each.day <= last and each.state is TaskState.CLOSED and each.estimate_minutes}
        assert set(desk.tasks.estimated_and_closed(first, last)) == closed
        desk.journal.write("Added", "k")


def test_work_is_what_stints_say_of_tasks(shared: Database) -> None:
    with shared.desk(someone(shared).id, NOW) as desk:
        desk.stints.add(Stint(0, 1, MONDAY, 60, task_ids=(3, 4)))
        desk.stints.add(Stint(0, 1, MONDAY, 30))
        desk.stints.add(Stint(0, 1, MONDAY + timedelta(days=1), 45, task_ids=(5,)))
        assert desk.stints.work_between(MONDAY, MONDAY) == (Work(MONDAY, 60, (3, 4)),)
        desk.journal.write("Logged", "k")


def test_the_weather_told_last_of_a_day_is_kept(shared: Database) -> None:
    rain, sun = ToldWeather(MONDAY, -1.5, 6.0, 61, True), ToldWeather(MONDAY, 2.0, 9.0, 0)
    with shared.desk(someone(shared).id, NOW) as desk:
        for told in (rain, sun, replace(rain, day=MONDAY + timedelta(days=1))):
            desk.weather.put(told)
        assert desk.weather.between(MONDAY, MONDAY) == (sun,)
    with shared.desk(someone(shared).id, NOW) as desk:
        assert desk.weather.between(date.min, date.max) == ()
