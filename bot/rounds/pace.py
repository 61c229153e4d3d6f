"""How fast a chat service may be written to. Pure: the clock is given, and nobody waits in here."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from math import inf


@dataclass(frozen=True, slots=True)
class Allowance:
    """``burst`` messages at once, and then one every ``seconds``."""

    seconds: float
    burst: int = 1

    @property
    def slack(self) -> float:
        """By how many seconds a message may be early."""
        return self.seconds * (self.burst - 1)


@dataclass(frozen=True, slots=True)
class Window:
    """At most so many messages within any so many seconds, and none sooner after another than ``apart``."""

    most: int
    seconds: float
    apart: float


# About one message a second in a chat, short bursts aside, and 30 a second overall: https://core.telegram.org/bots/faq
A_CHAT = Allowance(seconds=1.0, burst=5)
# The ten milliseconds more are for the grain of clocks. What was late, because the processor had other work, is made up
# for at up to 40 a second, as far as the window allows.
OVERALL = Window(most=30, seconds=1.01, apart=1 / 40)
UNLIMITED = Allowance(seconds=0.0)


def share_of(overall: Window, workers: int) -> Window:
    """What each of so many workers, no more than ``overall.most``, may send, so that all of them together keep to ``overall``."""
    return Window(overall.most // workers, overall.seconds, overall.apart * workers)


MOST_REMEMBERED = 1000


class Pace:
    """Says when a message may go, from when others arrived.

    The service counts when messages arrive, which nobody here sees: some time between going and being answered. Had the
    answer come back as quickly as the quickest of all, the message arrived that much before it, and no later. So
    one that is held up on its way, or whose answer is, never lets another come too soon.

    Of a chat it keeps one number, the moment its allowance is whole again:
    this is the generic cell rate algorithm (ITU-T I.371, annex A). Of all
    together it keeps the moments of the last answers that fill the window.
    Moments are seconds on any clock that only moves forward.
    """

    def __init__(self, a_chat: Allowance = A_CHAT, overall: Window | None = OVERALL) -> None:
        """Without an ``overall`` there is no limit to all together."""
        self._a_chat = a_chat
        self._overall = overall
        self._under_way = 0
        self._latest = -inf
        self._quickest = inf
        self._answered: deque[float] = deque(maxlen=overall.most if overall is not None else 1)
        self._chat_whole_again: dict[str, float] = {}

    def rest(self, address: str, now: float) -> float:
        """The seconds from ``now`` until this chat may be written to again; 0 when it may be now."""
        return max(self._chat_whole_again.get(address, 0.0) - self._a_chat.slack - now, 0.0)

    def wait(self, now: float) -> float:
        """The seconds from ``now`` until anyone may be written to again; 0 when they may be now."""
        if self._overall is None:
            return 0.0
        # What is under way counts as arriving now.
        place = self._overall.most - self._under_way
        if place <= 0:
            return self._overall.apart
        window = self._answered[-place] - self._quickest + self._overall.seconds if place <= len(self._answered) else now
        return max(self._latest + self._overall.apart - now, window - now, 0.0)

    def went(self, now: float) -> None:
        """A message goes now. ``answered`` must follow, whatever becomes of it."""
        self._under_way += 1
        self._latest = now

    def answered(self, address: str, went: float, now: float) -> None:
        """The message to ``address`` that went then is answered now, or given up."""
        self._under_way -= 1
        self._answered.append(now)
        self._quickest = min(self._quickest, now - went)
        arrived = now - self._quickest
        self._chat_whole_again[address] = max(arrived, self._chat_whole_again.get(address, 0.0)) + self._a_chat.seconds
        if len(self._chat_whole_again) > MOST_REMEMBERED:
            self._chat_whole_again = {chat: moment for chat, moment in self._chat_whole_again.items() if moment > now}
