"""The postman, with a carrier written by hand and a clock that the test moves."""

from __future__ import annotations

import asyncio
from collections import defaultdict, deque
from collections.abc import Callable, Coroutine, Iterable, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.carrying import CarryBlocked, CarryError, CarryLater, CarryRefused
from bot.rounds.pace import UNLIMITED, Pace
from bot.rounds.postman import LONGEST_PAUSE, LOOK_ALL_OVER_SECONDS, MANY_TRIES, MOST_COURIERS, Postman, pause_after
from bot.voice.post_said import PERHAPS_A_REPEAT
from storage.records import Outcome, Parcel, ParcelState, Waiting
from tests.rounds.memory_outbox import START, MemoryOutbox, message, rewrite

HERE, THERE = "telegram:1", "telegram:2"


class Clock:
    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        return self.now

    def forward(self, seconds: float) -> None:
        self.now += timedelta(seconds=seconds)


class HandCarrier:
    """Takes every parcel, except for the troubles it was given, which come first, one a try."""

    def __init__(self, outbox: MemoryOutbox) -> None:
        self.outbox = outbox
        self.carried: list[tuple[str, str, str | None]] = []
        self.troubles: dict[int, deque[CarryError]] = defaultdict(deque)
        self.closed: dict[str, asyncio.Event] = {}

    async def carry(self, parcel: Parcel, rewrites: str | None) -> str:
        if parcel.address in self.closed:
            await self.closed[parcel.address].wait()
        if self.troubles[parcel.id]:
            raise self.troubles[parcel.id].popleft()
        self.carried.append((parcel.address, parcel.text, rewrites))
        return rewrites or f"as-{parcel.id}"


class Round:
    """A postman with all that is around it."""

    def __init__(self, *parcels: Parcel) -> None:
        self.outbox = MemoryOutbox(*parcels)
        self.carrier = HandCarrier(self.outbox)
        self.clock = Clock()
        self.postman = Postman(self.outbox, self.carrier, self.clock, Pace(UNLIMITED, None))

    @property
    def texts(self) -> list[str]:
        return [text for _, text, _ in self.carrier.carried]

    def deliver(self) -> int:
        return asyncio.run(self.postman.deliver_due())


def test_all_that_is_owed_is_delivered_in_order_and_marked() -> None:
    round = Round(message("first", 1), message("second", 2), message("third", 3))
    assert round.deliver() == 3
    assert round.texts == ["first", "second", "third"]
    assert [(parcel.state, parcel.carried_as) for parcel in round.outbox.parcels.values()] == [
        (ParcelState.SENT, "as-1"),
        (ParcelState.SENT, "as-2"),
        (ParcelState.SENT, "as-3"),
    ]


def test_each_try_and_its_outcome_are_noted() -> None:
    round = Round(message("only", 1))
    round.carrier.troubles[1].append(CarryLater(0, "no network"))
    round.deliver()
    round.clock.forward(1)
    round.deliver()
    assert round.outbox.notes == [("trying", 1), ("later", 1), ("trying", 1), ("sent", 1)]
    assert round.outbox.get(1).tries == 2


def test_what_became_of_many_is_noted_at_once() -> None:
    class CountingOutbox(MemoryOutbox):
        times = 0

        def note(self, outcomes: Sequence[Outcome], now: datetime) -> None:
            self.times += 1
            super().note(outcomes, now)

    outbox = CountingOutbox(*(message("hello", number, f"telegram:{number}") for number in range(1, MOST_COURIERS + 1)))
    assert asyncio.run(Postman(outbox, HandCarrier(outbox), Clock(), Pace(UNLIMITED, None)).deliver_due()) == MOST_COURIERS
    assert outbox.times == 1


def test_what_became_of_a_message_is_noted_with_the_try_of_the_next() -> None:
    class CountingOutbox(MemoryOutbox):
        times = 0

        def note_and_take(self, outcomes: Sequence[Outcome], ids: Sequence[int], now: datetime) -> list[Parcel]:
            self.times += 1
            return super().note_and_take(outcomes, ids, now)

    outbox = CountingOutbox(message("first", 1), message("second", 2), message("third", 3))
    assert asyncio.run(Postman(outbox, HandCarrier(outbox), Clock(), Pace(UNLIMITED, None)).deliver_due()) == 3
    assert outbox.notes == [("trying", 1), ("sent", 1), ("trying", 2), ("sent", 2), ("trying", 3), ("sent", 3)]
    assert outbox.times == 4


def test_what_was_acknowledged_is_never_sent_again() -> None:
    round = Round(message("once", 1))
    assert [round.deliver(), round.deliver()] == [1, 0]
    assert round.texts == ["once"]


def test_an_acknowledged_parcel_whose_mark_failed_is_only_marked_the_next_time() -> None:
    class FullDisk(MemoryOutbox):
        is_full = True

        def note(self, outcomes: Sequence[Outcome], now: datetime) -> None:
            if self.is_full:
                raise OSError("disk full")
            super().note(outcomes, now)

    round = Round(message("once", 1))
    outbox = FullDisk(message("once", 1))
    carrier = HandCarrier(outbox)
    postman = Postman(outbox, carrier, round.clock, Pace(UNLIMITED, None))

    async def story() -> int:
        with pytest.raises(OSError, match="disk full"):
            await postman.deliver_due()
        outbox.is_full = False
        return await postman.deliver_due()

    assert asyncio.run(story()) == 1
    assert len(carrier.carried) == 1
    assert outbox.get(1).carried_as == "as-1"


def test_an_address_that_has_to_wait_keeps_its_order_while_others_go_on() -> None:
    round = Round(message("here 1", 1, HERE), message("here 2", 2, HERE), message("there", 3, THERE))
    round.carrier.troubles[1].append(CarryLater(30, "asked to wait"))
    assert round.deliver() == 1
    assert round.texts == ["there"]
    round.clock.forward(29)
    assert round.deliver() == 0
    round.clock.forward(1)
    assert round.deliver() == 2
    assert round.texts == ["there", "here 1", "here 2"]


def test_the_pause_grows_with_each_try_when_nobody_says_how_long_to_wait() -> None:
    round = Round(message("at last", 1))
    round.carrier.troubles[1].extend([CarryLater(0, "no network")] * 3)
    waits = []
    for _ in range(3):
        assert round.deliver() == 0
        not_before = round.outbox.get(1).not_before
        assert not_before is not None
        waits.append((not_before - round.clock.now).total_seconds())
        round.clock.now = not_before
    assert waits == [1, 2, 4]
    assert round.deliver() == 1


@given(st.integers(0, 10_000))
def test_pauses_never_shrink_and_never_pass_the_longest(tries: int) -> None:
    assert pause_after(tries) <= pause_after(tries + 1) <= LONGEST_PAUSE


def test_a_refused_parcel_is_set_aside_and_the_next_one_goes() -> None:
    round = Round(message("never", 1), message("but this", 2))
    round.carrier.troubles[1].append(CarryRefused("text is empty"))
    assert round.deliver() == 1
    assert round.outbox.get(1).state is ParcelState.ASIDE
    assert round.texts == ["but this"]


def test_nothing_more_goes_to_who_blocked_the_bot_and_others_get_theirs() -> None:
    round = Round(message("never", 1, HERE), message("nor this", 2, HERE), message("but this", 3, THERE))
    round.carrier.troubles[1].append(CarryBlocked("blocked by the user"))
    assert round.deliver() == 1
    assert [parcel.state for parcel in round.outbox.parcels.values()] == [ParcelState.ASIDE, ParcelState.ASIDE, ParcelState.SENT]
    assert round.texts == ["but this"]


@pytest.mark.parametrize(("perhaps", "begins"), [(True, PERHAPS_A_REPEAT), (False, "3 h")])
def test_a_message_that_may_have_arrived_says_so_when_it_comes_again(perhaps: bool, begins: str) -> None:
    round = Round(message("3 h workshop", 1))
    round.carrier.troubles[1].append(CarryLater(0, "no answer", perhaps_carried=perhaps))
    round.deliver()
    round.clock.forward(60)
    round.deliver()
    (text,) = round.texts
    assert text.startswith(begins)
    assert text.endswith("3 h workshop")


def test_what_a_crash_cut_short_says_so_when_it_comes_again_even_after_a_try_that_surely_failed() -> None:
    round = Round(replace(message("3 h workshop", 1), tries=1, tried=START))
    round.carrier.troubles[1].append(CarryLater(0, "no network"))
    round.deliver()
    round.clock.forward(60)
    round.deliver()
    assert round.texts == [f"{PERHAPS_A_REPEAT}\n3 h workshop"]


def test_an_edit_names_what_it_rewrites_even_when_both_are_owed_at_once() -> None:
    round = Round(message("no forecast yet", 1), rewrite("rain", edits=1, id=2))
    round.deliver()
    assert round.carrier.carried == [("telegram:99", "no forecast yet", None), ("telegram:99", "rain", "as-1")]


def test_an_edit_of_what_was_never_carried_goes_as_a_message_of_its_own() -> None:
    round = Round(message("refused", 1), rewrite("in full", edits=1, id=2))
    round.carrier.troubles[1].append(CarryRefused("no"))
    round.deliver()
    assert round.carrier.carried == [("telegram:99", "in full", None)]


@pytest.mark.parametrize(("original", "begins"), [(CarryRefused("no"), PERHAPS_A_REPEAT), (None, "in full")])
def test_an_edit_that_comes_again_says_so_only_where_it_goes_as_a_message_of_its_own(original: CarryError | None, begins: str) -> None:
    round = Round(message("at first", 1), replace(rewrite("in full", edits=1, id=2), tries=1, tried=START))
    round.carrier.troubles[1].extend([original] if original else [])
    round.deliver()
    assert round.texts[-1].startswith(begins)


def test_a_parcel_that_fails_for_a_day_is_given_up() -> None:
    stale = replace(message("yesterday's weather", 1), tries=MANY_TRIES, written=START - timedelta(days=2))
    round = Round(stale, message("today's", 2))
    round.carrier.troubles[1].append(CarryLater(0, "server error"))
    assert round.deliver() == 1
    assert round.texts == ["today's"]


@pytest.mark.parametrize("tries", [2, 60])
def test_days_of_being_switched_off_or_a_clock_that_jumps_give_up_nothing_that_was_hardly_tried(tries: int) -> None:
    stale = replace(message("written two days ago", 1), tries=tries, written=START - timedelta(days=2))
    round = Round(stale)
    round.carrier.troubles[1].append(CarryLater(0, "no network"))
    assert round.deliver() == 0
    assert round.outbox.get(1).state is ParcelState.OWED


def run_a_while(story: Callable[[], Coroutine[None, None, None]]) -> None:
    asyncio.run(asyncio.wait_for(story(), 5))


def test_a_slow_address_does_not_hold_up_another() -> None:
    round = Round(message("slow", 1, HERE))

    async def story() -> None:
        round.carrier.closed[HERE] = asyncio.Event()
        keeping = asyncio.create_task(round.postman.keep_delivering())
        await asyncio.sleep(0.01)
        round.outbox.owe(message("quick", address=THERE))
        round.postman.wake()
        while round.texts != ["quick"]:
            await asyncio.sleep(0.001)
        round.carrier.closed[HERE].set()
        while round.texts != ["quick", "slow"]:
            await asyncio.sleep(0.001)
        keeping.cancel()

    run_a_while(story)


def test_being_woken_delivers_at_once() -> None:
    round = Round()

    async def story() -> None:
        keeping = asyncio.create_task(round.postman.keep_delivering())
        await asyncio.sleep(0.01)
        for number in range(20):
            round.outbox.owe(message(f"message {number}"))
            round.postman.wake()
            await asyncio.sleep(0)
        while len(round.texts) < 20:
            await asyncio.sleep(0.001)
        keeping.cancel()

    run_a_while(story)
    assert round.texts == [f"message {number}" for number in range(20)]


def test_recalled_couriers_leave_their_parcels_owed_and_known_to_be_tried() -> None:
    round = Round(message("in hand", 1, HERE))

    async def story() -> None:
        round.carrier.closed[HERE] = asyncio.Event()
        with pytest.raises(TimeoutError):
            await asyncio.wait_for(round.postman.deliver_due(), 0.01)
        await round.postman.recall()

    run_a_while(story)
    assert round.outbox.get(1).state is ParcelState.OWED
    assert round.outbox.notes == [("trying", 1)]


class SharedOutbox(MemoryOutbox):
    """One in which another worker has some parcels in hand; that worker may die, and writes with numbers below those that are known."""

    def __init__(self, *parcels: Parcel) -> None:
        super().__init__(*parcels)
        self.elsewhere: set[int] = set()
        self.looks: list[int] = []

    def waiting(self, after: int, limit: int) -> list[Waiting]:
        self.looks.append(after)
        return super().waiting(after, limit)

    def take(self, ids: Sequence[int], now: datetime) -> list[Parcel]:
        return super().take([id for id in ids if id not in self.elsewhere], now)


def test_what_another_worker_left_or_wrote_late_is_found_within_a_second() -> None:
    outbox = SharedOutbox(message("left", 2), message("known", 3, THERE))
    outbox.elsewhere.add(2)
    carrier, seconds = HandCarrier(outbox), [0.0]
    postman = Postman(outbox, carrier, Clock(), Pace(UNLIMITED, None), clock=lambda: seconds[0], shared=True)

    def told() -> list[str]:
        return [text for _, text, _ in carrier.carried]

    async def story() -> None:
        delivering = asyncio.create_task(postman.keep_delivering())
        await asyncio.sleep(0.01)
        assert told() == ["known"]
        outbox.parcels[1] = message("late", 1, "telegram:3")
        outbox.elsewhere.clear()
        postman.wake()
        await asyncio.sleep(0.01)
        assert told() == ["known"]
        seconds[0] += LOOK_ALL_OVER_SECONDS
        postman.wake()
        await asyncio.sleep(0.01)
        delivering.cancel()

    run_a_while(story)
    assert sorted(told()) == ["known", "late", "left"]


def test_a_postman_that_is_alone_never_looks_twice_at_the_same() -> None:
    outbox = SharedOutbox(message("only", 1))
    seconds = [0.0]
    postman = Postman(outbox, HandCarrier(outbox), Clock(), Pace(UNLIMITED, None), clock=lambda: seconds[0])

    async def story() -> None:
        delivering = asyncio.create_task(postman.keep_delivering())
        for _ in range(3):
            await asyncio.sleep(0.01)
            seconds[0] += 10 * LOOK_ALL_OVER_SECONDS
            postman.wake()
        delivering.cancel()

    run_a_while(story)
    assert outbox.looks.count(0) == 1


def test_messages_keep_to_the_pace() -> None:
    moments = moments_of(message(str(number), number, HERE) for number in range(1, 8))
    # Five in a burst, then one a second; and never two overall within a fortieth of a second.
    assert [moment for moment, _ in moments] == pytest.approx([0, 1 / 40, 2 / 40, 3 / 40, 4 / 40, 1, 2], abs=0.15)


def test_a_chat_that_has_to_rest_keeps_no_other_from_the_pace() -> None:
    flood = [message(f"flood {number}", number, HERE) for number in range(1, 9)]
    moments = moments_of([*flood, *(message("other", number, f"telegram:{number}") for number in range(10, 40))])
    assert max(moment for moment, text in moments if text == "other") <= 36 / 29
    assert max(moment for moment, _ in moments) == pytest.approx(3, abs=0.1)


def test_an_answer_waits_a_second_at_most_behind_what_nobody_asked_for() -> None:
    unasked = [replace(message(f"morning {number}", number, f"telegram:{number}"), round="morning") for number in range(1, 101)]
    moments = moments_of([*unasked, message("answer", 101, "telegram:80"), message("answer", 102, "telegram:200")])
    # One of them is behind a morning message in its own chat, which therefore goes first.
    assert [moment for moment, text in moments if text in ("answer", "morning 80")][-1] < 1
    assert moments[-1][0] > 3


def moments_of(parcels: Iterable[Parcel]) -> list[tuple[float, str]]:
    """When each parcel is carried, in seconds from the start, on a clock that moves only while everyone sleeps."""
    outbox, clock = MemoryOutbox(*parcels), Sleepers()
    carried: list[tuple[float, str]] = []

    class Noting(HandCarrier):
        async def carry(self, parcel: Parcel, rewrites: str | None) -> str:
            carried.append((clock.seconds, parcel.text))
            return await super().carry(parcel, rewrites)

    postman = Postman(outbox, Noting(outbox), Clock(), Pace(), clock.sleep, lambda: clock.seconds)
    asyncio.run(postman.deliver_due())
    return carried


class Sleepers:
    """A clock that moves on to who wakes next when nobody has anything left to do."""

    def __init__(self) -> None:
        self.seconds = 0.0
        self._until: list[float] = []

    async def sleep(self, seconds: float) -> None:
        until = self.seconds + seconds
        self._until.append(until)
        while self.seconds < until:
            for _ in range(20):
                await asyncio.sleep(0)
            if min(self._until) == until:
                self.seconds = until
        self._until.remove(until)


@given(st.lists(st.sampled_from([HERE, THERE, "telegram:3"]), max_size=30), st.data())
def test_whatever_goes_wrong_each_parcel_arrives_once_and_in_its_chats_order(addresses: list[str], data: st.DataObject) -> None:
    round = Round(*(message(f"{number}", number, address) for number, address in enumerate(addresses, 1)))
    for number in range(1, len(addresses) + 1):
        for _ in range(data.draw(st.integers(0, 2))):
            round.carrier.troubles[number].append(CarryLater(data.draw(st.integers(0, 90)), "asked to wait"))
    for _ in range(3 * len(addresses) + 1):
        round.deliver()
        round.clock.forward(100)
    for address in set(addresses):
        wanted = [str(number) for number, its_address in enumerate(addresses, 1) if its_address == address]
        assert [text for its_address, text, _ in round.carrier.carried if its_address == address] == wanted
