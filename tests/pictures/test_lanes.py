from __future__ import annotations

from datetime import date, datetime, time, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from bot.pictures.lanes import hours_shown, lanes_of, placed_on
from bot.pictures.views import Piece
from tests.rules.made import BRUSSELS, MONDAY, wall


def piece(start: str, end: str) -> Piece:
    return Piece("museum", "museum", wall(start), wall(end))


def test_a_piece_lies_where_the_clocks_show_it() -> None:
    (placed,) = placed_on(MONDAY, [piece("2026-03-02 13:00", "2026-03-02 17:30")], BRUSSELS)

    assert (placed.starts, placed.ends, placed.lane) == (13 * 60, 17 * 60 + 30, 0)


def test_a_night_is_on_both_its_days() -> None:
    night = [piece("2026-03-02 22:00", "2026-03-03 06:00")]

    assert [(each.starts, each.ends) for each in placed_on(MONDAY, night, BRUSSELS)] == [(22 * 60, 24 * 60)]
    assert [(each.starts, each.ends) for each in placed_on(MONDAY + timedelta(days=1), night, BRUSSELS)] == [(0, 6 * 60)]


def test_what_ends_in_the_small_hours_is_drawn_on_the_day_it_began() -> None:
    late = [piece("2026-03-02 23:00", "2026-03-03 01:00")]

    assert [(each.starts, each.ends) for each in placed_on(MONDAY, late, BRUSSELS)] == [(23 * 60, 25 * 60)]
    assert placed_on(MONDAY + timedelta(days=1), late, BRUSSELS) == ()
    assert hours_shown(placed_on(MONDAY, late, BRUSSELS), time(6), time(21)) == (6, 25)


def test_a_piece_that_ends_at_midnight_is_not_on_the_next_day() -> None:
    assert placed_on(MONDAY + timedelta(days=1), [piece("2026-03-02 20:00", "2026-03-03 00:00")], BRUSSELS) == ()


def test_a_piece_within_the_repeated_hour_is_drawn_by_the_time_that_passes() -> None:
    # Source: tz database, rule EU: on 25 October 2026 Brussels repeats the hour from 02:00; 00:45 UTC is 02:45 and 01:15 UTC is 02:15.
    repeated = Piece("museum", "museum", wall("2026-10-25 02:45"), wall("2026-10-25 02:45") + timedelta(minutes=30))

    (placed,) = placed_on(date(2026, 10, 25), [repeated], BRUSSELS)

    assert (placed.starts, placed.ends) == (2 * 60 + 45, 3 * 60 + 15)


def test_what_touches_shares_a_lane_and_what_overlaps_does_not() -> None:
    pieces = [
        piece("2026-03-02 09:00", "2026-03-02 12:00"),
        piece("2026-03-02 11:00", "2026-03-02 14:00"),
        piece("2026-03-02 12:00", "2026-03-02 13:00"),
    ]

    placed = placed_on(MONDAY, pieces, BRUSSELS)

    assert [each.lane for each in placed] == [0, 1, 0]
    assert lanes_of(placed) == 2


def test_the_hours_shown_hold_the_waking_window_and_everything_else() -> None:
    placed = placed_on(MONDAY, [piece("2026-03-02 05:30", "2026-03-02 22:10")], BRUSSELS)

    assert hours_shown(placed, time(6), time(21)) == (5, 23)
    assert hours_shown((), time(6), time(21)) == (6, 21)
    assert hours_shown((), time(10), time(2)) == (10, 24)


@given(st.lists(st.tuples(st.integers(0, 2000), st.integers(1, 600)), max_size=12))
def test_no_two_pieces_of_a_lane_overlap_and_there_are_no_more_lanes_than_needed(drawn: list[tuple[int, int]]) -> None:
    midnight = datetime.combine(MONDAY, time()).replace(tzinfo=wall("2026-03-02 00:00").tzinfo)
    pieces = [Piece("a", "a", midnight + timedelta(minutes=at), midnight + timedelta(minutes=at + length)) for at, length in drawn]

    placed = placed_on(MONDAY, pieces, "UTC")

    lanes = [[each for each in placed if each.lane == lane] for lane in range(lanes_of(placed))]
    assert all(one.ends <= other.starts for lane in lanes for one, other in pairwise(lane))
    busiest = max((sum(each.starts <= minute < each.ends for each in placed) for minute in range(1440 + 300)), default=0)
    assert lanes_of(placed) == max(1, busiest)
