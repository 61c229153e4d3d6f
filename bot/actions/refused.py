"""How an action stops before it has changed anything."""

from __future__ import annotations

from bot.voice.replies import Refusal, Reply


class Stopped(Exception):
    """The action ends here, with nothing changed, and ``reply`` says why or asks what is meant."""

    def __init__(self, reply: Reply) -> None:
        super().__init__(type(reply).__name__)
        self.reply = reply


def refused(reason: object, about: str = "", known: tuple[str, ...] = ()) -> Stopped:
    """A ``Stopped`` with a ``Refusal``; raise it."""
    return Stopped(Refusal(reason, about, known))  # type: ignore[arg-type]
