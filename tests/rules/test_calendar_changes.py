"""What is new, moved or gone from one reading of a calendar to the next."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.rules.calendar_changes import CalendarChanges, Moved, calendar_changes
from bot.rules.calendar_events import CalendarEvent
from bot.rules.spans import Span
from tests.rules.made import BRUSSELS, utc

WINDOW = Span(utc("2026-03-02 06:00"), utc("2026-03-16 06:00"))


def event(starts: str, uid: str = "dentist", recurrence: str = "", hours: int = 1) -> CalendarEvent:
    """An event that starts at a UTC time."""
    start = utc(starts)
    return CalendarEvent(uid, recurrence, uid, start, start + timedelta(hours=hours))


def series(uid: str, *starts: str) -> list[CalendarEvent]:
    """A series whose times are named by their starts, as a rule names them."""
    return [event(start, uid, f"{utc(start):%Y%m%dT%H%M%SZ}") for start in starts]


def changes(before: Iterable[CalendarEvent], after: Iterable[CalendarEvent]) -> CalendarChanges:
    """What changed in the two weeks from Monday morning on."""
    return calendar_changes(before, after, WINDOW, BRUSSELS)


DENTIST = event("2026-03-03 09:00")


def test_where_nothing_changed_there_is_nothing_to_tell() -> None:
    assert not changes([DENTIST], [DENTIST])


def test_what_was_not_there_is_new_and_what_is_there_no_longer_is_gone() -> None:
    plumber = event("2026-03-04 09:00", "plumber")
    assert changes([DENTIST], [plumber]) == CalendarChanges(new=(plumber,), gone=(DENTIST,))


def test_another_time_under_the_same_name_is_a_move() -> None:
    for later in (event("2026-03-05 09:00"), event("2026-03-03 09:00", hours=2), replace(DENTIST, all_day=True)):
        assert changes([DENTIST], [later]) == CalendarChanges(moved=(Moved(DENTIST, later),))


def test_another_title_or_place_is_not_told_of() -> None:
    assert not changes([DENTIST], [replace(DENTIST, title="Dentist, second visit", place="Canal Street 4")])


def test_a_cancelled_event_is_gone_and_one_taken_up_again_is_new() -> None:
    cancelled = replace(DENTIST, cancelled=True)
    assert changes([DENTIST], [cancelled]) == CalendarChanges(gone=(DENTIST,))
    assert changes([cancelled], [DENTIST]) == CalendarChanges(new=(DENTIST,))
    assert not changes([cancelled], [])


def test_only_the_window_is_told_of() -> None:
    past, far = event("2026-03-01 09:00", "past"), event("2026-03-20 09:00", "far")
    assert not changes([past, far], [])
    assert not changes([], [past, far])
    assert not changes([past], [event("2026-02-20 09:00", "past")])


def test_what_reaches_into_the_window_or_starts_in_it_belongs_to_it() -> None:
    under_way = event("2026-03-02 05:30", "under way")
    just_over = event("2026-03-02 05:00", "just over")
    moment = event("2026-03-02 06:00", "moment", hours=0)
    after = event("2026-03-16 06:00", "after")
    assert changes([], [under_way, just_over, moment, after]).new == (under_way, moment)


def test_a_move_out_of_the_window_or_into_it_is_told_of() -> None:
    far = event("2026-04-20 09:00")
    assert changes([DENTIST], [far]).moved == (Moved(DENTIST, far),)
    assert changes([far], [DENTIST]).moved == (Moved(far, DENTIST),)


def test_a_series_that_was_moved_as_a_whole_is_not_told_of_twice() -> None:
    before = series("shift", "2026-02-24 12:00", "2026-03-03 12:00", "2026-03-10 12:00", "2026-03-17 12:00")
    after = series("shift", "2026-02-27 08:00", "2026-03-06 08:00", "2026-03-13 08:00", "2026-03-20 08:00")
    assert changes(before, after) == CalendarChanges(moved=(Moved(before[1], after[1]), Moved(before[2], after[2])))


def test_a_series_that_came_to_be_shorter_loses_the_rest() -> None:
    before = series("course", "2026-03-03 18:00", "2026-03-05 18:00", "2026-03-10 18:00", "2026-03-12 18:00")
    after = series("course", "2026-03-04 18:00", "2026-03-11 18:00")
    assert changes(before, after) == CalendarChanges(
        moved=(Moved(before[0], after[0]), Moved(before[2], after[1])), gone=(before[1], before[3])
    )


def test_one_time_more_on_another_day_is_new_although_its_series_is_known() -> None:
    before = series("course", "2026-03-03 18:00")
    after = series("course", "2026-03-03 18:00", "2026-03-05 18:00")
    assert changes(before, after) == CalendarChanges(new=(after[1],))


def test_weeks_are_the_persons_own() -> None:
    # Half past midnight on Monday 9 March in Brussels is Sunday evening in UTC, and Friday the 13th is in the same week.
    before, after = series("bread", "2026-03-08 23:30"), series("bread", "2026-03-13 05:00")
    assert changes(before, after) == CalendarChanges(moved=(Moved(before[0], after[0]),))


events = st.builds(
    lambda uid, recurrence, minutes, length, cancelled: CalendarEvent(
        uid,
        recurrence,
        uid,
        start := datetime(2026, 2, 20, tzinfo=UTC) + timedelta(minutes=minutes),
        start + timedelta(minutes=length),
        cancelled=cancelled,
    ),
    st.sampled_from("abc"),
    st.sampled_from(["", "1", "2", "3"]),
    st.integers(0, 40 * 24 * 60),
    st.integers(0, 3000),
    st.booleans(),
)
readings = st.lists(events, max_size=12, unique_by=lambda event: event.key)


@given(readings, readings)
def test_every_event_is_told_of_once_at_most_and_back_again_it_is_the_other_way_round(
    before: list[CalendarEvent], after: list[CalendarEvent]
) -> None:
    there, back = changes(before, after), changes(after, before)
    assert (back.new, back.gone) == (there.gone, there.new)
    assert {(move.after, move.before) for move in back.moved} == {(move.before, move.after) for move in there.moved}
    left = [move.before.key for move in there.moved] + [event.key for event in there.gone]
    came = [move.after.key for move in there.moved] + [event.key for event in there.new]
    assert len(set(left)) == len(left)
    assert len(set(came)) == len(came)


@given(readings.flatmap(lambda each: st.tuples(st.just(each), st.permutations(each))))
def test_the_order_of_a_reading_does_not_matter(readings: tuple[list[CalendarEvent], list[CalendarEvent]]) -> None:
    once, again = readings
    assert not changes(once, again)
    assert changes([], once) == changes([], again)
