"""The planner's two objectives, stated to OR-tools CP-SAT from their definitions and without the planner's own code."""

from __future__ import annotations

from importlib import import_module
from typing import Any

from bot.rules.planning.week_asked import OpenWeek, WeekGoal, WeekTarget
from tests.rules.naive_days import NaiveDay, NaiveThing, Rank

WeekRank = tuple[int, int, int]


def best_day(day: NaiveDay) -> Rank:
    """The rank of the best plan of ``day``, proved by CP-SAT."""
    return _DayModel(day).best()


def best_week(week: OpenWeek) -> WeekRank:
    """The rank of the best plan of ``week``, proved by CP-SAT."""
    return _WeekModel(week).best()


def _solved(cp: Any, model: Any) -> Any:
    solver = cp.CpSolver()
    # One worker was the quickest for models of this size.
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    assert status == cp.OPTIMAL, solver.status_name(status)
    return solver


class _DayModel:
    """One truth value a thing and slot, one a thing and slot where a piece of it starts, one a thing."""

    def __init__(self, day: NaiveDay) -> None:
        self.cp: Any = import_module("ortools.sat.python.cp_model")
        self.day, self.model = day, self.cp.CpModel()
        self.placed = [self.model.new_bool_var("") for _ in day.things]
        self.lies = [{slot: self.model.new_bool_var("") for slot in sorted(thing.allowed)} for thing in day.things]
        self.starts = [{slot: self.model.new_bool_var("") for slot in lies} for lies in self.lies]
        for index, thing in enumerate(day.things):
            self._constrain(index, thing)
        for slot in range(day.slots):
            self.model.add_at_most_one(lies[slot] for lies in self.lies if slot in lies)
        self.model.add(sum(sum(lies.values()) for lies in self.lies) <= day.may_fill)

    def _constrain(self, index: int, thing: NaiveThing) -> None:
        lies, starts = self.lies[index], self.starts[index]
        self.model.add(sum(lies.values()) == thing.length * self.placed[index])
        for slot, start in starts.items():
            before = lies.get(slot - 1, 0)
            self.model.add(start >= lies[slot] - before)
            self.model.add(start <= lies[slot])
            self.model.add(start + before <= 1)
            for later in range(slot, slot + thing.smallest):
                self.model.add(start <= lies.get(later, 0))

    def best(self) -> Rank:
        levels = self._levels()
        bounds = (
            len(self.day.things),
            sum(thing.value for thing in self.day.things),
            sum(thing.value for thing in self.day.things) * self.day.slots**2,
            self.day.slots,
            100 * self.day.slots,
        )
        weight, total = 1, 0
        for level, bound in zip(reversed(levels), reversed(bounds), strict=True):
            total += weight * level
            weight *= bound + 1
        # CP-SAT counts in 64 bits.
        assert weight < 2**62
        self.model.maximize(total)
        solver = _solved(self.cp, self.model)
        first, second, third, fourth, fifth = (round(solver.value(level)) for level in levels)
        return first, second, third, fourth, fifth

    def _levels(self) -> tuple[Any, Any, Any, Any, Any]:
        things = list(zip(self.day.things, self.placed, self.lies, self.starts, strict=True))
        return (
            sum(placed for thing, placed, _, _ in things if thing.routine),
            sum(thing.value * placed for thing, placed, _, _ in things if not thing.routine),
            -sum(thing.value * slot * there for thing, _, lies, _ in things for slot, there in lies.items()),
            sum(placed - sum(starts.values()) for _, placed, _, starts in things),
            -sum(self.day.wet[slot] * there for thing, _, lies, _ in things if thing.outdoors for slot, there in lies.items()),
        )


class _WeekModel:
    """One number of quarters a goal and day, with a truth value that says whether there are any, and one a target and day."""

    def __init__(self, week: OpenWeek) -> None:
        self.cp: Any = import_module("ortools.sat.python.cp_model")
        self.week, self.model = week, self.cp.CpModel()
        self.goals = [self._goal(goal) for goal in week.goals]
        self.targets = [[self._number(_lacks(target)) for _ in week.days] for target in week.targets]
        for number, room in enumerate(week.days):
            self.model.add(sum(days[number] for days in self.goals + self.targets) <= room.minutes // 15)

    def _number(self, most: int) -> Any:
        return self.model.new_int_var(0, most, "")

    def _goal(self, goal: WeekGoal) -> list[Any]:
        wants = _quarters(goal.minutes)
        smallest = wants if goal.smallest_minutes is None else min(wants, _quarters(goal.smallest_minutes))
        days = [self._number(wants) for _ in self.week.days]
        for quarters, room in zip(days, self.week.days, strict=True):
            some = self.model.new_bool_var("")
            self.model.add(quarters <= wants * some)
            self.model.add(quarters >= smallest * some)
            if (goal.first_day is not None and room.day < goal.first_day) or (goal.last_day is not None and room.day > goal.last_day):
                self.model.add(quarters == 0)
        self.model.add(sum(days) <= wants)
        return days

    def best(self) -> WeekRank:
        lacking = sum(self._lacking(index, target) for index, target in enumerate(self.week.targets))
        missing = sum(goal.value * (_quarters(goal.minutes) - sum(days)) for goal, days in zip(self.week.goals, self.goals, strict=True))
        count = len(self.week.goals)
        weights = [goal.value * (count + 1) + count - index for index, goal in enumerate(self.week.goals)]
        late = sum(
            weight * number * quarters
            for weight, days in zip(weights + [1] * len(self.targets), self.goals + self.targets, strict=True)
            for number, quarters in enumerate(days)
        )
        room = sum(day.minutes for day in self.week.days) // 15
        latest = 1 + (max(weights, default=0) + 1) * len(self.week.days) * room
        most_missing = 1 + sum(goal.value * _quarters(goal.minutes) for goal in self.week.goals)
        self.model.minimize(lacking * most_missing * latest + missing * latest + late)
        solver = _solved(self.cp, self.model)
        return solver.value(lacking), solver.value(missing), solver.value(late)

    def _lacking(self, index: int, target: WeekTarget) -> Any:
        of_goals = [sum(days) for goal, days in zip(self.week.goals, self.goals, strict=True) if goal.category_id == target.category_id]
        has = sum(self.targets[index]) + sum(of_goals)
        if target.at_most_minutes is not None:
            self.model.add(has <= max(0, target.at_most_minutes - target.settled_minutes) // 15)
        lacking = self._number(_lacks(target))
        self.model.add(lacking >= _lacks(target) - has)
        return lacking


def _quarters(minutes: int) -> int:
    return -(-minutes // 15)


def _lacks(target: WeekTarget) -> int:
    return max(0, _quarters((target.at_least_minutes or 0) - target.settled_minutes))
