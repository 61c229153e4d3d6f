"""Why a line to Telegram has to end. Apart from the rest so that naming these errors loads no library."""

from __future__ import annotations


class LineError(ConnectionError):
    """The line to Telegram cannot be used as it is; trying again will not help."""


class BadToken(LineError):
    """Telegram does not know the token, or no longer does."""


class TwoPollers(LineError):
    """Another program asks for the same bot's updates."""
