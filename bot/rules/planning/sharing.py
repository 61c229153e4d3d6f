"""Quarters of an hour of each goal on each day of a week, found exactly.

Were it not for smallest shares, the cheapest flow would be the best plan.
Where that flow gives a goal too little on a day, there are two cases: the day
has nothing of the goal, or at least its smallest share. Where it gives a goal
too little in the whole week, the cases are the same for the week. Branch and
bound (Land and Doig, 1960) looks into the cases, the cheapest flow first.

A week has a handful of cases. One with far more goals than room, each with a
large smallest share, may have millions; nobody waits for those, so after
``MOST_CASES`` a good plan is given for the best, and marked so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from heapq import heappop, heappush
from itertools import count
from typing import Final

from bot.rules.planning.week_board import Pair, Shares, WeekBoard
from bot.rules.planning.week_flow import Case, Flow, cheapest

MOST_CASES: Final = 2000
"""About half a second. Common practice, no source."""


def share_out(board: WeekBoard, most_cases: int = MOST_CASES) -> Shares:
    """The best plan of ``board`` by ``week_objective``; not ``proven`` if that took more cases than ``most_cases``."""
    order = count()
    every_day = range(len(board.rooms))
    everything = cheapest(board, _with_usable(board, _with_what_is_full(board, Case(board.rooms)), every_day))
    waiting: list[tuple[int, int, Flow]] = [(everything.cost, next(order), everything)]
    # The case in which nothing is placed is always possible, so something waits until the best is found.
    while True:
        _, looked_into, flow = heappop(waiting)
        shares = flow.shares
        cases = _split(board, flow.case, shares)
        if not cases:
            return shares
        if looked_into >= most_cases:
            return _without_small_shares(board, flow.case, shares)
        for case in cases:
            full = _with_what_is_full(board, case)
            found = flow.within(_with_usable(board, full, _days_settled(flow.case, full)))
            if found is not None:
                heappush(waiting, (found.cost, next(order), found))


def _without_small_shares(board: WeekBoard, case: Case, shares: Shares) -> Shares:
    """A possible plan near ``shares``: what is too small is given up, until nothing is."""
    case = Case(board.rooms, case.nothing)
    while small := _too_small(board, shares):
        case = _with_usable(board, replace(case, nothing=case.nothing | set(small)), range(len(board.rooms)))
        shares = cheapest(board, case).shares
    return replace(shares, proven=False)


def _split(board: WeekBoard, case: Case, shares: Shares) -> tuple[Case, ...]:
    """The two cases that a share which is too small leaves; none if every share is large enough.

    The one with the share comes first: where both cost the same, it is the sooner possible.
    """
    smallest = [portion.smallest for portion in board.portions]
    too_little = [index for index in range(len(smallest)) if 0 < shares.of_goal(index) < smallest[index]]
    if too_little:
        goal = max(too_little, key=lambda index: smallest[index])
        nowhere = {(goal, day) for day in range(board.portions[goal].first, board.portions[goal].last + 1)}
        return replace(case, somewhere=case.somewhere | {goal}), replace(case, nothing=case.nothing | nowhere)
    too_small = _too_small(board, shares)
    if not too_small:
        return ()
    # On the day with the least room the fewest ways are left, so that what cannot be shows soonest.
    pair = min(too_small, key=lambda pair: (board.rooms[pair[1]], -shares.goals[pair]))
    return replace(case, enough=case.enough | {pair}), replace(case, nothing=case.nothing | {pair})


def _too_small(board: WeekBoard, shares: Shares) -> list[Pair]:
    return [pair for pair, quarters in shares.goals.items() if quarters < board.portions[pair[0]].smallest]


def _with_what_is_full(board: WeekBoard, case: Case) -> Case:
    """The case, with nothing wherever one more smallest share does not fit beside those that must be."""
    days, goals = [0] * len(board.rooms), [0] * len(board.portions)
    for goal, day in case.enough:
        days[day] += board.portions[goal].smallest
        goals[goal] += board.portions[goal].smallest
    full = {pair for pair in _undecided(board, case) if not _fits(board, pair, days, goals)}
    return replace(case, nothing=case.nothing | full)


def _days_settled(before: Case, case: Case) -> set[int]:
    """The days of which the case settles more than the one before it: what is usable of the others stays the same."""
    return {day for _, day in (case.nothing - before.nothing) | (case.enough - before.enough)}


def _with_usable(board: WeekBoard, case: Case, days: Iterable[int]) -> Case:
    """The case, with no more of ``days`` than is usable."""
    rooms = list(case.rooms)
    for day in days:
        rooms[day] = _usable(board, case, day)
    return replace(case, rooms=tuple(rooms))


def _undecided(board: WeekBoard, case: Case) -> Iterator[Pair]:
    for goal, portion in enumerate(board.portions):
        for day in range(portion.first, portion.last + 1):
            if (goal, day) not in case.enough:
                yield goal, day


def _fits(board: WeekBoard, pair: Pair, days: list[int], goals: list[int]) -> bool:
    goal, day = pair
    portion = board.portions[goal]
    return days[day] + portion.smallest <= board.rooms[day] and goals[goal] + portion.smallest <= portion.wants


def _usable(board: WeekBoard, case: Case, day: int) -> int:
    """The most quarters that shares of allowed sizes can make up on ``day``.

    Sums that can be made up are bits: what a sum can be, with or without each
    goal in turn.
    """
    room = board.rooms[day]
    sums = (1 << min(room, sum(lack.lacks for lack in board.lacks)) + 1) - 1
    for goal, portion in enumerate(board.portions):
        if portion.first <= day <= portion.last and (goal, day) not in case.nothing:
            with_it = 0
            for quarters in range(portion.smallest, min(portion.wants, room) + 1):
                with_it |= sums << quarters
            sums = (with_it if (goal, day) in case.enough else sums | with_it) & (1 << room + 1) - 1
    return sums.bit_length() - 1
