"""The pace: https://core.telegram.org/bots/faq has about one message a second in a chat and 30 a second overall."""

from __future__ import annotations

from itertools import pairwise
from math import inf

from hypothesis import given
from hypothesis import strategies as st

from bot.rounds.pace import MOST_REMEMBERED, OVERALL, UNLIMITED, Allowance, Pace, Window, share_of


def moments(pace: Pace, asked: list[tuple[str, float]]) -> list[tuple[str, float]]:
    """When each message goes, in the order asked for, when each waits for as long as it has to."""
    gone, now = [], 0.0
    for address, wanted in asked:
        now = max(now, wanted)
        while (wait := max(pace.rest(address, now), pace.wait(now))) > 0:
            now += wait
        pace.went(now)
        pace.answered(address, now, now)
        gone.append((address, now))
    return gone


def test_the_first_message_goes_at_once() -> None:
    assert moments(Pace(), [("a", 1000.0)]) == [("a", 1000.0)]


def test_a_burst_is_let_through_and_then_one_a_second() -> None:
    gone = moments(Pace(Allowance(1.0, burst=3), None), [("a", 50.0)] * 6)
    assert [moment for _, moment in gone] == [50, 50, 50, 51, 52, 53]


def test_a_chat_that_was_quiet_may_burst_again() -> None:
    gone = moments(Pace(Allowance(1.0, burst=3), None), [("a", 50.0)] * 3 + [("a", 60.0)] * 4)
    assert [moment for _, moment in gone[3:]] == [60, 60, 60, 61]


@given(st.lists(st.tuples(st.sampled_from("abc"), st.floats(0, 5)), max_size=60))
def test_no_chat_and_no_window_gets_more_than_its_share(steps: list[tuple[str, float]]) -> None:
    now, asked = 0.0, []
    for address, pause in steps:
        now += pause / 10
        asked.append((address, now))
    gone = moments(Pace(Allowance(1.0, burst=3), Window(most=5, seconds=1.0, apart=0.1)), asked)
    for address in "abc":
        times = [moment for its_address, moment in gone if its_address == address]
        # Any four in a row take at least the one second that the fourth has to wait for.
        assert all(later - earlier >= 1 - 1e-9 for earlier, later in zip(times, times[3:], strict=False))
    everyones = [moment for _, moment in gone]
    assert all(later - earlier >= 0.1 - 1e-9 for earlier, later in pairwise(everyones))
    assert all(later - earlier >= 1 - 1e-9 for earlier, later in zip(everyones, everyones[5:], strict=False))


def test_many_chats_have_nearly_thirty_messages_a_second_and_never_more() -> None:
    gone = [moment for _, moment in moments(Pace(), [(f"chat {number}", 0.0) for number in range(3000)])]
    assert 3000 / gone[-1] >= 0.95 * 30
    assert all(later - earlier > 1 for earlier, later in zip(gone, gone[30:], strict=False))


@given(st.lists(st.tuples(st.floats(0, 0.4), st.floats(0, 0.4)), min_size=40, max_size=80))
def test_however_long_messages_and_answers_take_no_more_than_may_arrive_within_a_second(ways: list[tuple[float, float]]) -> None:
    pace, now = Pace(UNLIMITED, Window(most=10, seconds=1.0, apart=0.0)), 0.0
    under_way: list[tuple[float, float]] = []
    arrived: list[float] = []
    # From the first one the quickest way is learned: 50 milliseconds there, and as many back.
    for there, back in [(0.0, 0.0), *ways]:
        while (wait := pace.wait(now)) > 0 or len(under_way) == 4:
            at, went = min(under_way, default=(inf, now))
            now = at if len(under_way) == 4 else min(at, now + max(wait, 1e-6))
            if now == at:
                pace.answered("a chat", went, now)
                under_way.remove((at, went))
        pace.went(now)
        arrived.append(now + 0.05 + there)
        under_way.append((now + 0.1 + there + back, now))
    arrived.sort()
    assert all(later - earlier >= 1 - 1e-5 for earlier, later in zip(arrived, arrived[10:], strict=False))


def test_what_was_held_up_is_made_up_for() -> None:
    held_up = [(f"chat {number}", 0.0 if number < 15 else 0.9) for number in range(30)]
    assert moments(Pace(UNLIMITED, OVERALL), held_up)[-1][1] < 1.3


def test_a_long_life_remembers_only_chats_that_still_count() -> None:
    pace = Pace()
    for number in range(5 * MOST_REMEMBERED):
        pace.went(number * 10.0)
        pace.answered(f"chat {number}", number * 10.0, number * 10.0)
    assert len(pace._chat_whole_again) <= MOST_REMEMBERED + 1


@given(st.integers(1, OVERALL.most))
def test_workers_together_keep_to_what_one_alone_may_send(workers: int) -> None:
    share = share_of(OVERALL, workers)
    gone = moments(Pace(UNLIMITED, share), [(str(number), 0.0) for number in range(3 * share.most)])
    for begin in (moment for _, moment in gone):
        assert 0 < workers * sum(begin <= moment < begin + OVERALL.seconds for _, moment in gone) <= OVERALL.most


def test_one_worker_alone_has_all_of_it() -> None:
    assert share_of(OVERALL, 1) == OVERALL
