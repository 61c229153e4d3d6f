"""How fast a chat service may be written to. Pure: the clock is given, and nobody waits in here."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Allowance:
    """``burst`` messages at once, and then one every ``seconds``."""

    seconds: float
    burst: int = 1

    @property
    def slack(self) -> float:
        """By how many seconds a message may be early."""
        return self.seconds * (self.burst - 1)


# About one message a second in a chat, short bursts aside, and 30 a second overall: https://core.telegram.org/bots/faq
A_CHAT = Allowance(seconds=1.0, burst=5)
OVERALL = Allowance(seconds=1 / 30)
UNLIMITED = Allowance(seconds=0.0)

MOST_REMEMBERED = 1000


class Pace:
    """Gives each message its moment, in the order asked for.

    Keeps one number a chat: the moment its allowance is whole again. This is
    the generic cell rate algorithm (ITU-T I.371, annex A) as a reservation.
    Moments are seconds on any clock that only moves forward.
    """

    def __init__(self, a_chat: Allowance = A_CHAT, overall: Allowance = OVERALL) -> None:
        self._a_chat = a_chat
        self._overall = overall
        self._whole_again = 0.0
        self._chat_whole_again: dict[str, float] = {}

    def rest(self, address: str, now: float) -> float:
        """The seconds from ``now`` until this chat may be written to again; 0 when it may be now. Takes nothing."""
        return max(self._chat_whole_again.get(address, 0.0) - self._a_chat.slack - now, 0.0)

    def reserve(self, address: str, now: float) -> float:
        """The seconds from ``now`` until the next message to ``address`` may go; that moment is taken."""
        chat_whole_again = self._chat_whole_again.get(address, 0.0)
        moment = max(now, chat_whole_again - self._a_chat.slack, self._whole_again - self._overall.slack)
        self._chat_whole_again[address] = max(moment, chat_whole_again) + self._a_chat.seconds
        self._whole_again = max(moment, self._whole_again) + self._overall.seconds
        self._forget(now)
        return moment - now

    def _forget(self, now: float) -> None:
        if len(self._chat_whole_again) > MOST_REMEMBERED:
            self._chat_whole_again = {address: moment for address, moment in self._chat_whole_again.items() if moment > now}
