"""The pace: https://core.telegram.org/bots/faq has about one message a second in a chat and 30 a second overall."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from bot.rounds.pace import MOST_REMEMBERED, Allowance, Pace


def moments(pace: Pace, asked: list[tuple[str, float]]) -> list[tuple[str, float]]:
    return [(address, now + pace.reserve(address, now)) for address, now in asked]


def test_the_first_message_goes_at_once() -> None:
    assert Pace().reserve("a", 1000.0) == 0


def test_a_burst_is_let_through_and_then_one_a_second() -> None:
    pace = Pace(Allowance(1.0, burst=3), Allowance(0.0))
    assert [pace.reserve("a", 50.0) for _ in range(6)] == [0, 0, 0, 1, 2, 3]


def test_a_chat_that_was_quiet_may_burst_again() -> None:
    pace = Pace(Allowance(1.0, burst=3), Allowance(0.0))
    moments(pace, [("a", 50.0)] * 3)
    assert [pace.reserve("a", 60.0) for _ in range(4)] == [0, 0, 0, 1]


@given(st.lists(st.tuples(st.sampled_from("abc"), st.floats(0, 5)), max_size=60))
def test_no_chat_and_no_second_gets_more_than_its_share(steps: list[tuple[str, float]]) -> None:
    now, asked = 0.0, []
    for address, pause in steps:
        now += pause / 10
        asked.append((address, now))
    gone = moments(Pace(Allowance(1.0, burst=3), Allowance(0.1)), asked)
    for address in "abc":
        times = [moment for its_address, moment in gone if its_address == address]
        # Any four in a row take at least the one second that the fourth has to wait for.
        assert all(later - earlier >= 1 - 1e-9 for earlier, later in zip(times, times[3:], strict=False))
    everyones = sorted(moment for _, moment in gone)
    assert all(later - earlier >= 0.1 - 1e-9 for earlier, later in pairwise(everyones))


def test_a_long_life_remembers_only_chats_that_still_count() -> None:
    pace = Pace()
    for number in range(5 * MOST_REMEMBERED):
        pace.reserve(f"chat {number}", now=number * 10.0)
    assert len(pace._chat_whole_again) <= MOST_REMEMBERED + 1
