"""A terminal's prompt: asks for lines, and shows what comes meanwhile above what is being typed."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from bot.rounds.off_loop import off_loop

PROMPT = "> "
# Back to the line's start, and the line cleared: ECMA-48, EL.
WIPE = "\r\x1b[K"


class Prompt:
    """Lines are edited, and those before come back with the arrow keys. What is no terminal is read as it is."""

    def __init__(self) -> None:
        self._is_open = False

    async def read_line(self) -> str | None:
        """The next line typed, None at the end of input. A thread of its own waits for it, so that messages still come."""
        self._is_open = sys.stdin.isatty()
        try:
            return await off_loop(_ask)
        finally:
            self._is_open = False

    def show(self, text: str) -> None:
        """Shows the text; what is being typed stays, below it."""
        if self._is_open:
            sys.stdout.write(f"{WIPE}{text}\n{PROMPT}{_typed()}")
        else:
            sys.stdout.write(f"{text}\n")
        sys.stdout.flush()


@contextmanager
def terminal_as_found() -> Iterator[None]:
    """Afterwards the terminal is as it was, even when a line was being edited."""
    if not sys.stdin.isatty():
        yield
        return
    import termios

    found = termios.tcgetattr(sys.stdin)
    try:
        yield
    finally:
        termios.tcsetattr(sys.stdin, termios.TCSADRAIN, found)


def _ask() -> str | None:
    if not sys.stdin.isatty():
        line = sys.stdin.readline()
        return line.rstrip("\n") if line else None
    with contextlib.suppress(ImportError):
        # Importing it is what gives ``input`` editing and a history, which is kept in memory alone.
        import readline  # noqa: F401
    with contextlib.suppress(EOFError):
        return input(PROMPT)
    return None


def _typed() -> str:
    """What stands at the prompt now."""
    with contextlib.suppress(ImportError):
        import readline

        return readline.get_line_buffer()
    return ""
