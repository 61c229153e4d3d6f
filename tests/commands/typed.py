"""``weekwright chat`` as a person at a terminal sees it: a pseudo-terminal that keys are pressed in."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import subprocess
import sys
import termios
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CONTROL_C, CONTROL_D, LEFT, UP = "\x03", "\x04", "\x1b[D", "\x1b[A"
LONGEST_SECONDS = 60.0
# What terminals are told beside text: ECMA-48, control sequences.
CONTROL = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]|\r|\x07")


class Typed:
    """A chat in a terminal of its own, ended with the block."""

    def __init__(self, folder: Path) -> None:
        self.seen = ""
        ours, theirs = pty.openpty()
        given = {name: value for name, value in os.environ.items() if not name.startswith("WEEKWRIGHT_")}
        self._process = subprocess.Popen(
            [sys.executable, "-m", "bot", "chat"],
            cwd=ROOT,
            env=given | {"WEEKWRIGHT_DATABASE": f"sqlite:///{folder / 'week.sqlite'}", "TERM": "xterm", "COLUMNS": "200"},
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            start_new_session=True,
            preexec_fn=lambda: _take_over(theirs),  # noqa: PLW1509
        )
        os.close(theirs)
        self._terminal = ours

    def __enter__(self) -> Typed:
        return self

    def __exit__(self, *_: object) -> None:
        self._process.kill()
        self._process.wait(20)
        os.close(self._terminal)

    def press(self, keys: str) -> None:
        """Keys are pressed."""
        os.write(self._terminal, keys.encode())

    def wait_for(self, text: str) -> str:
        """All that was shown since the last call, up to and with this text."""
        until = time.monotonic() + LONGEST_SECONDS
        while text not in self.seen:
            assert time.monotonic() < until, f"{text!r} not shown, but {self.seen!r}"
            if select.select([self._terminal], [], [], 0.2)[0]:
                self.seen += CONTROL.sub("", os.read(self._terminal, 65536).decode("utf-8", "replace"))
        shown, _, self.seen = self.seen.partition(text)
        return shown + text

    @property
    def echoes(self) -> bool:
        """Whether the terminal shows what is typed, as shells expect it to: termios(3), ECHO."""
        return bool(termios.tcgetattr(self._terminal)[3] & termios.ECHO)

    def end(self) -> int:
        """How it ended, by itself."""
        return self._process.wait(LONGEST_SECONDS)


def _take_over(terminal: int) -> None:
    """Makes it the process's own terminal, so that its keys are signals, too (tty_ioctl(4), TIOCSCTTY)."""
    fcntl.ioctl(terminal, termios.TIOCSCTTY, 0)
