from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from random import Random
from unittest.mock import patch
from zoneinfo import ZoneInfo

from hypothesis import example, given, settings
from hypothesis import strategies as st

from bot.rules.local_time import instant_of, local
from bot.rules.planning import arranging
from bot.rules.planning.asked import Fixed, OpenDay, Sky, Sort, Wanted
from bot.rules.planning.board import lies_in
from bot.rules.planning.day import DayPlan, plan_day
from bot.rules.planning.laying_out import grid_of, laid_out
from bot.rules.planning.objective import measured
from bot.rules.planning.solving import solve
from bot.rules.spans import Span, overlap, without
from tests.outside_checks.made_weeks import random_day
from tests.rules.naive_days import best_of_all, naive

STARTS = datetime(2026, 3, 2, 6, tzinfo=UTC)
QUARTER = timedelta(minutes=15)


def at(quarter: int) -> datetime:
    return STARTS + quarter * QUARTER


spans = st.tuples(st.integers(0, 5), st.integers(1, 3)).map(lambda each: Span(at(each[0]), at(each[0] + each[1])))
wanted = st.builds(
    Wanted,
    key=st.just(""),
    minutes=st.integers(1, 4).map(lambda quarters: quarters * 15),
    value=st.integers(1, 4),
    sort=st.sampled_from(Sort),
    window=st.none() | spans.map(lambda span: Span(span.starts, span.ends + QUARTER)),
    smallest_minutes=st.sampled_from([None, 15, 30]),
    outdoors=st.booleans(),
)
small_days = st.builds(
    OpenDay,
    window=st.just(Span(STARTS, at(7))),
    fixed=st.lists(spans.map(Fixed), max_size=1).map(tuple),
    wanted=st.lists(wanted, min_size=1, max_size=3).map(
        lambda each: tuple(replace(one, key=f"thing {number}") for number, one in enumerate(each))
    ),
    skies=st.lists(st.builds(Sky, span=spans, wet_chance=st.integers(0, 100), dry=st.booleans()), max_size=2).map(tuple),
    free_share=st.sampled_from([0, 20, 40]),
)
days = st.integers(0, 10**6).map(lambda seed: random_day(Random(seed)))


@given(small_days)
@settings(max_examples=150)
def test_no_plan_of_a_small_day_is_better(day: OpenDay) -> None:
    # Source: every plan there is, tried one by one.
    assert plan_day(day).objective.rank == best_of_all(naive(day))


@given(days)
def test_no_block_touches_a_commitment_or_another_block_or_leaves_the_waking_window(day: OpenDay) -> None:
    blocks = plan_day(day).blocks

    assert all(day.window.starts <= block.span.starts and block.span.ends <= day.window.ends for block in blocks)
    assert not any(overlap(block.span, fixed.taken) for block in blocks for fixed in day.fixed)
    assert all(one.span.ends <= other.span.starts for one, other in pairwise(blocks))


@given(days)
def test_what_is_placed_has_its_length_its_window_and_its_smallest_pieces_and_the_rest_is_named(day: OpenDay) -> None:
    plan = plan_day(day)
    minutes: Counter[str] = Counter()
    for block in plan.blocks:
        minutes[block.key] += block.span.minutes
    for each in day.wanted:
        pieces = [block.span for block in plan.blocks if block.key == each.key]
        smallest = each.minutes if each.smallest_minutes is None else min(each.minutes, each.smallest_minutes)
        assert minutes[each.key] in {0, -(-each.minutes // 15) * 15}
        assert all(piece.minutes >= smallest for piece in pieces)
        assert each.window is None or all(each.window.starts <= piece.starts and piece.ends <= each.window.ends for piece in pieces)
        assert not each.outdoors or not any(overlap(piece, sky.span) for piece in pieces for sky in day.skies if not sky.dry)

    assert {unplaced.key for unplaced in plan.unplaced} == {each.key for each in day.wanted} - set(minutes)


@given(days)
def test_the_share_of_the_free_hours_that_is_to_stay_free_stays_free(day: OpenDay) -> None:
    free = sum(span.minutes for span in without(day.window, (each.taken for each in day.fixed)))
    filled = sum(block.span.minutes for block in plan_day(day).blocks)

    assert filled * 100 <= free * (100 - day.free_share)


@given(days, st.integers(0, 4), st.integers(0, 12))
def test_more_free_time_never_makes_a_plan_worse(day: OpenDay, dropped: int, quarters: int) -> None:
    fixed = tuple(each for number, each in enumerate(day.fixed) if number != dropped)
    freer = replace(day, fixed=fixed, window=Span(day.window.starts, day.window.ends + quarters * QUARTER))

    assert plan_day(freer).objective.rank >= plan_day(day).objective.rank


@given(days, st.integers(1, 12))
def test_a_day_that_starts_earlier_holds_no_less(day: OpenDay, quarters: int) -> None:
    # Lateness counts from the start of the window, so only what is placed can be compared.
    earlier = replace(day, window=Span(day.window.starts - quarters * QUARTER, day.window.ends))
    more, less = plan_day(earlier).objective, plan_day(day).objective

    assert (more.routines, more.value) >= (less.routines, less.value)


ZONES = ["UTC", "Europe/Brussels", "America/St_Johns", "Asia/Kathmandu", "Pacific/Chatham", "Australia/Lord_Howe", "Pacific/Apia"]


@given(st.integers(0, 10**6), st.sampled_from(ZONES))
def test_the_same_local_day_in_another_zone_has_the_same_local_plan(seed: int, zone: str) -> None:
    day = random_day(Random(seed))

    assert _local_blocks(plan_day(_moved(day, zone)), zone) == _local_blocks(plan_day(day), "UTC")


def _moved(day: OpenDay, zone: str) -> OpenDay:
    """The day with every local time the same on the clocks of ``zone``."""

    def span(each: Span) -> Span:
        return Span(_same_wall(each.starts, zone), _same_wall(each.ends, zone))

    return replace(
        day,
        window=span(day.window),
        fixed=tuple(replace(each, span=span(each.span)) for each in day.fixed),
        wanted=tuple(replace(each, window=span(each.window) if each.window else None) for each in day.wanted),
        skies=tuple(replace(each, span=span(each.span)) for each in day.skies),
    )


def _same_wall(instant: datetime, zone: str) -> datetime:
    return instant.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC)


def _local_blocks(plan: DayPlan, zone: str) -> list[tuple[str, datetime, datetime]]:
    return [
        (block.key, local(block.span.starts, zone).replace(tzinfo=None), local(block.span.ends, zone).replace(tzinfo=None))
        for block in plan.blocks
    ]


def test_a_day_with_a_clock_change_is_planned_in_the_hours_that_pass() -> None:
    # Source: tz database, rule EU: on 29 March 2026 the clocks of Brussels jump from 02:00 to 03:00.
    day, zone = date(2026, 3, 29), "Europe/Brussels"
    window = Span(instant_of(day, time(1), zone), instant_of(day, time(6), zone))

    plan = plan_day(OpenDay(window, wanted=(Wanted("a", 60, 2), Wanted("b", 60), Wanted("c", 180)), free_share=0))

    assert [f"{local(block.span.starts, zone):%H:%M}" for block in plan.blocks] == ["01:00", "03:00"]
    assert [unplaced.key for unplaced in plan.unplaced] == ["c"]


@given(st.integers(0, 10**6), st.integers(1, 120), st.sampled_from((200, 8)))
@example(seed=1, most_states=1, hurried=8)
@settings(max_examples=60)
def test_a_search_cut_short_gives_a_possible_plan_that_is_no_better_than_the_best(seed: int, most_states: int, hurried: int) -> None:
    day = random_day(Random(seed))
    board = laid_out(day, grid_of(day.window))

    best = solve(board)
    # With few states left to hurry through, things are added one after the other.
    with patch.object(arranging, "HURRIED_STATES", hurried):
        found = solve(board, most_states)

    filled = [slot for piece in found.pieces for slot in range(piece.start, piece.end)]
    assert len(filled) == len(set(filled)) <= board.capacity
    for piece in found.pieces:
        assert lies_in(board.items[piece.item].allowed, piece.start, piece.length)
    for index in {piece.item for piece in found.pieces}:
        lengths = [piece.length for piece in found.pieces if piece.item == index]
        assert sum(lengths) == board.items[index].length
        assert min(lengths) >= board.items[index].shortest
    assert measured(board, found.pieces).rank <= measured(board, best.pieces).rank
    assert not found.proven or measured(board, found.pieces).rank == measured(board, best.pieces).rank
