"""What can go wrong beyond the bot, as one family of errors that carry data; words are made of them elsewhere."""

from __future__ import annotations

from enum import StrEnum


class Fault(StrEnum):
    """Why an answer is missing."""

    NOT_REACHED = "not reached"
    TIMED_OUT = "timed out"
    TOO_MANY_REQUESTS = "too many requests"
    SERVER_ERROR = "server error"
    REFUSED = "refused"
    TOO_LARGE = "too large"
    NOT_UNDERSTOOD = "not understood"
    NOT_A_CALENDAR = "not a calendar"
    NOT_SECURE = "not secure"
    PRIVATE_ADDRESS = "private address"
    TOO_MANY_REDIRECTS = "too many redirects"


PASSING = frozenset({Fault.NOT_REACHED, Fault.TIMED_OUT, Fault.TOO_MANY_REQUESTS, Fault.SERVER_ERROR, Fault.NOT_UNDERSTOOD})


class OutsideError(Exception):
    """Something beyond the bot did not answer as it should.

    ``detail`` is what the other side said, if anything; ``seconds`` how long
    it asked to be left alone.
    """

    def __init__(self, fault: Fault, detail: str = "", seconds: float | None = None) -> None:
        super().__init__(f"{fault}: {detail}" if detail else str(fault))
        self.fault = fault
        self.detail = detail
        self.seconds = seconds

    @property
    def passing(self) -> bool:
        """Whether the same request may well be answered later."""
        return self.fault in PASSING


class NoAnswer(OutsideError):
    """A web service gave no usable answer."""


class ForecastUnavailable(OutsideError):
    """There is no forecast to be had now."""


class PlacesUnavailable(OutsideError):
    """Places cannot be looked up now."""


class CalendarUnavailable(OutsideError):
    """A calendar cannot be had, or is none."""
