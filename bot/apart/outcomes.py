"""What comes back from another process: a value, or an error as it was."""

from __future__ import annotations

import traceback
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Protocol


class ApartError(Exception):
    """A process of its own did not do its work. ``work`` is the name of the function."""

    def __init__(self, work: str, reason: str) -> None:
        super().__init__(f"{work}: {reason}")
        self.work = work


class Died(ApartError):
    """It ended in the middle, with this exit ``code`` (Popen.returncode: negative for a signal), or could not be started (None)."""

    def __init__(self, work: str, code: int | None) -> None:
        super().__init__(work, f"ended with {code}")
        self.code = code


class TooSlow(ApartError):
    """It took more than ``seconds``, and was ended."""

    def __init__(self, work: str, seconds: float) -> None:
        super().__init__(work, f"took more than {seconds:g} s")
        self.seconds = seconds


class NotCarried(ApartError):
    """What it gave, or the error that it raised, cannot be carried from one process to another. ``kind`` is its class's name."""

    def __init__(self, work: str, kind: str) -> None:
        super().__init__(work, f"{kind} cannot be carried")
        self.kind = kind


class Elsewhere(Exception):
    """What an error that came over is raised from: ``where`` it came from in the code, for the log."""

    def __init__(self, where: str) -> None:
        super().__init__(where)
        self.where = where


class Outcome(Protocol):
    """How work ended."""

    def settled(self) -> Any:
        """What it gave. Raises what it raised."""


@dataclass(frozen=True, slots=True)
class Gave:
    """A value."""

    value: object

    def settled(self) -> object:
        """The value."""
        return self.value


@dataclass(frozen=True, slots=True)
class Raised:
    """An error in its parts, because many are made of other things than their ``args``; and ``where`` it came from."""

    kind: type[BaseException]
    args: tuple[object, ...]
    state: Mapping[str, object]
    where: str

    def settled(self) -> object:
        """Raises it, from Elsewhere."""
        error = self.kind.__new__(self.kind, *self.args)
        error.args = self.args
        vars(error).update(self.state)
        raise error from Elsewhere(self.where)


def raised(error: BaseException) -> Raised:
    """The error in its parts, without what it was raised from."""
    frames = traceback.extract_tb(error.__traceback__)
    where = f" in {frames[-1].name}, line {frames[-1].lineno}" if frames else ""
    return Raised(type(error), error.args, dict(vars(error)), where)
