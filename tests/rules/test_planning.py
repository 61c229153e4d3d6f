from __future__ import annotations

from datetime import date, timedelta

import pytest

from bot.rules.planning.asked import Block, Fixed, OpenDay, Sky, Sort, Wanted
from bot.rules.planning.day import first_day_with_room, plan_day
from bot.rules.planning.remedies import FillMore, InTheWet, MoreTime, OutsideWindow, Remedy, Splitting, Without
from bot.rules.planning.skies import skies_of
from bot.rules.planning.worth import BEHIND_TARGET, PLAIN, PRESSING, PUSHED_OFTEN, ROUTINE, task_value
from bot.rules.spans import Span
from bot.rules.weather import Forecast, ForecastHour
from tests.rules.made import utc


def span(start: str, end: str) -> Span:
    """A stretch of Monday, in UTC."""
    return Span(utc(f"2026-03-02 {start}"), utc(f"2026-03-02 {end}"))


def day(
    start: str,
    end: str,
    *wanted: Wanted,
    fixed: tuple[Fixed, ...] = (),
    skies: tuple[Sky, ...] = (),
    kept: tuple[Block, ...] = (),
    free_share: int = 0,
) -> OpenDay:
    return OpenDay(span(start, end), fixed, wanted, skies, kept, free_share)


def planned(asked: OpenDay) -> list[str]:
    """The blocks as ``spokes 09:00 10:00``."""
    return [f"{block.key} {block.span.starts:%H:%M} {block.span.ends:%H:%M}" for block in plan_day(asked).blocks]


def remedies_of(asked: OpenDay, key: str) -> tuple[Remedy, ...]:
    return next(unplaced.remedies for unplaced in plan_day(asked).unplaced if unplaced.key == key)


def test_the_more_valuable_comes_first_and_the_day_is_filled_from_its_start() -> None:
    asked = day("09:00", "17:00", Wanted("report", 60), Wanted("spokes", 120, 5), Wanted("course", 30, 3))

    assert planned(asked) == ["spokes 09:00 11:00", "course 11:00 11:30", "report 11:30 12:30"]


def test_a_short_task_goes_before_a_commitment_when_the_more_valuable_one_does_not_fit_there() -> None:
    asked = day("08:00", "12:00", Wanted("report", 90, 5), Wanted("call", 30), fixed=(Fixed(span("09:00", "10:00")),))

    assert planned(asked) == ["call 08:00 08:30", "report 10:00 11:30"]


def test_routines_come_before_any_task_and_lie_in_their_windows() -> None:
    run = Wanted("run", 60, sort=Sort.ROUTINE, window=span("07:00", "09:00"))

    assert planned(day("07:00", "09:00", Wanted("report", 120, 8), run)) == ["run 07:00 08:00"]


def test_getting_there_and_back_takes_time_too() -> None:
    museum = Fixed(span("10:00", "12:00"), minutes_before=30, minutes_after=20)

    # The next full quarter of an hour after 12:20.
    assert planned(day("09:00", "14:00", Wanted("report", 60), fixed=(museum,))) == ["report 12:30 13:30"]


def test_a_task_is_split_only_if_it_may_be_and_into_no_piece_smaller_than_its_smallest() -> None:
    lunch = (Fixed(span("10:00", "11:00")),)

    assert planned(day("09:00", "12:30", Wanted("report", 120, smallest_minutes=45), fixed=lunch)) == [
        "report 09:00 10:00",
        "report 11:00 12:00",
    ]
    assert planned(day("09:00", "12:30", Wanted("report", 120), fixed=lunch)) == []
    assert planned(day("09:30", "12:30", Wanted("report", 120, smallest_minutes=45), fixed=lunch)) == []


def test_a_rainy_morning_moves_an_outdoor_task_to_the_dry_hours() -> None:
    rain = (Sky(span("08:00", "11:00"), 80, dry=False), Sky(span("11:00", "14:00"), 10, dry=True))

    asked = day("08:00", "14:00", Wanted("garden", 60, 5, outdoors=True), Wanted("report", 60), skies=rain)

    assert planned(asked) == ["report 08:00 09:00", "garden 11:00 12:00"]


def test_of_two_equal_orders_the_one_with_the_better_forecast_outdoors_is_taken() -> None:
    skies = (Sky(span("08:00", "09:00"), 40, dry=True), Sky(span("09:00", "10:00"), 10, dry=True))
    garden = Wanted("garden", 60, outdoors=True)

    assert planned(day("08:00", "10:00", garden, Wanted("report", 60), skies=skies)) == ["report 08:00 09:00", "garden 09:00 10:00"]


def test_the_share_that_stays_free_is_not_filled() -> None:
    asked = day("08:00", "10:00", Wanted("a", 60), Wanted("b", 30), Wanted("c", 15), free_share=20)

    # 96 of 120 minutes may be filled, which is six quarters of an hour.
    assert plan_day(asked).objective.value == 2
    assert plan_day(asked).minutes_left == 90 - 45


def test_what_is_kept_stays_and_counts_as_filled() -> None:
    kept = (Block("spokes", span("09:00", "10:00")),)

    plan = plan_day(day("08:00", "10:00", Wanted("report", 60), Wanted("call", 30), kept=kept, free_share=25))

    assert plan.blocks == (Block("call", span("08:00", "08:30")), *kept)
    assert plan.minutes_left == 0


def test_a_day_with_no_room_plans_nothing_and_says_so() -> None:
    asked = day("08:00", "10:00", Wanted("report", 60), fixed=(Fixed(span("07:00", "11:00")),))

    assert plan_day(asked).blocks == ()
    assert remedies_of(asked, "report") == (MoreTime(60),)
    assert plan_day(day("10:00", "10:00", Wanted("report", 60))).blocks == ()


def test_what_does_not_fit_says_how_much_longer_the_longest_stretch_would_have_to_be() -> None:
    asked = day("09:00", "13:00", Wanted("report", 165), fixed=(Fixed(span("11:00", "12:00")),))

    assert remedies_of(asked, "report") == (Splitting(2), MoreTime(45))


def test_what_may_be_split_and_does_not_fit_says_how_much_time_all_pieces_lack() -> None:
    asked = day("09:00", "13:00", Wanted("report", 240, smallest_minutes=30), fixed=(Fixed(span("11:00", "12:00")),))

    assert remedies_of(asked, "report") == (MoreTime(60),)


def test_what_only_the_free_share_keeps_out_says_how_much_of_it_would_do() -> None:
    asked = day("08:00", "10:00", Wanted("report", 120), free_share=20)

    assert remedies_of(asked, "report") == (FillMore(30),)


def test_a_routine_that_finds_its_window_taken_says_when_it_would_fit_and_what_stands_in_its_way() -> None:
    run = Wanted("run", 60, ROUTINE, Sort.ROUTINE, span("08:00", "09:00"))
    quiet = Wanted("quiet time", 30, ROUTINE, Sort.ROUTINE, span("08:00", "08:45"))
    asked = day("08:00", "12:00", run, quiet, Wanted("report", 60))

    # Of two routines of which only one goes, the shorter one makes the day no later.
    assert planned(asked) == ["quiet time 08:00 08:30", "report 08:30 09:30"]
    assert remedies_of(asked, "run") == (OutsideWindow(utc("2026-03-02 09:30")), MoreTime(60))


def test_a_task_that_would_fit_if_a_less_valuable_one_went_elsewhere_names_it() -> None:
    asked = day("08:00", "10:00", Wanted("a", 60, 3), Wanted("b", 60, 2), Wanted("c", 60, 1))

    assert remedies_of(asked, "c") == (Without("b"), MoreTime(60))


def test_an_outdoor_task_on_a_wet_day_says_when_it_would_fit_in_the_wet() -> None:
    asked = day("08:00", "10:00", Wanted("garden", 60, outdoors=True), skies=(Sky(span("08:00", "10:00"), 90, dry=False),))

    assert remedies_of(asked, "garden") == (InTheWet(utc("2026-03-02 08:00")), MoreTime(60))


def test_the_first_day_whose_own_plan_leaves_room_is_found() -> None:
    full = day("08:00", "10:00", Wanted("a", 90))
    later = day("08:00", "10:00", Wanted("a", 60))
    days = [(date(2026, 3, 3), full), (date(2026, 3, 4), later)]

    assert first_day_with_room(Wanted("report", 60, window=span("06:00", "07:00")), days) == date(2026, 3, 4)
    assert first_day_with_room(Wanted("report", 90), days) is None


def test_the_same_day_gives_the_same_plan() -> None:
    asked = day("08:00", "16:00", *(Wanted(f"task {number}", 45) for number in range(6)), free_share=20)

    assert plan_day(asked) == plan_day(asked)


@pytest.mark.parametrize(("minutes", "value", "smallest"), [(0, 1, 30), (30, 0, 30), (30, 1, -15)])
def test_lengths_and_values_below_one_are_refused(minutes: int, value: int, smallest: int) -> None:
    with pytest.raises(ValueError, match="report"):
        Wanted("report", minutes, value, smallest_minutes=smallest)


def test_a_pressing_goal_outweighs_pushes_which_outweigh_being_behind_a_target() -> None:
    # Source: common practice, no source.
    assert task_value(pressing=False, pushes=1, behind_target=False) == PLAIN
    assert task_value(pressing=True, pushes=0, behind_target=False) > task_value(pressing=False, pushes=2, behind_target=True)
    assert task_value(pressing=False, pushes=2, behind_target=False) > task_value(pressing=False, pushes=1, behind_target=True)
    assert task_value(pressing=True, pushes=2, behind_target=True) == PLAIN + PRESSING + PUSHED_OFTEN + BEHIND_TARGET == ROUTINE


def test_each_hour_of_a_forecast_says_whether_it_is_dry() -> None:
    hours = tuple(
        ForecastHour(utc("2026-03-02 09:00") + timedelta(hours=number), wet_chance=chance, millimetres=millimetres)
        for number, (chance, millimetres) in enumerate([(10, 0.0), (60, 0.0), (None, 0.4), (None, 0.0), (None, None)])
    )

    assert skies_of(Forecast(51.05, 3.72, hours), span("08:30", "14:00")) == (
        Sky(span("08:00", "09:00"), 10, dry=True),
        Sky(span("09:00", "10:00"), 60, dry=False),
        Sky(span("10:00", "11:00"), 100, dry=False),
        Sky(span("11:00", "12:00"), 0, dry=True),
    )
