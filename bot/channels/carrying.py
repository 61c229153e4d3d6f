"""The narrow port between the postman and a chat service."""

from __future__ import annotations

from typing import Protocol

from storage.records import Parcel


class CarryError(Exception):
    """A parcel could not be carried."""


class CarryLater(CarryError):
    """Not now; ``seconds`` says when to try again. ``perhaps_carried`` is True when it may have arrived all the same."""

    def __init__(self, seconds: float, reason: str, *, perhaps_carried: bool = False) -> None:
        super().__init__(reason)
        self.seconds = seconds
        self.reason = reason
        self.perhaps_carried = perhaps_carried


class CarryRefused(CarryError):
    """The chat service will never take this parcel as it is."""


class CarryBlocked(CarryError):
    """The person does not want messages any more (blocked the bot, left the chat)."""


class Carrier(Protocol):
    """Carries one parcel and gives the chat service's id for it."""

    async def carry(self, parcel: Parcel, rewrites: str | None) -> str:
        """Sends ``parcel``; ``rewrites`` is the chat service's id of the message it edits.

        Raises CarryLater, CarryRefused or CarryBlocked.
        """
