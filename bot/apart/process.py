"""This side: a process that is started when work is wanted, and ended when none is."""

from __future__ import annotations

import atexit
import os
import pickle  # nosec B403
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from subprocess import PIPE, Popen, TimeoutExpired  # nosec B404
from threading import Lock, Timer
from types import TracebackType
from typing import TypeVar, cast

from bot.apart.outcomes import Died, Outcome, TooSlow

SECONDS = 120.0
"""How long a work may take before it is ended: many times what the largest export needs on a small machine."""

IDLE_SECONDS = 20.0
"""How long the process waits for more: what the end of a week asks for comes together."""

ENDS_WITHIN = 1.0
"""Seconds in which a process that says nothing more has ended by itself."""

OURS = "WEEKWRIGHT_"
Given = TypeVar("Given")


class Apart:
    """A process of its own for plain functions, one work after another. Blocks, and may be called from any thread."""

    def __init__(self, seconds: float = SECONDS, idle_seconds: float = IDLE_SECONDS) -> None:
        self._seconds = seconds
        self._idle_seconds = idle_seconds
        self._turn = Lock()
        self._process: Popen[bytes] | None = None
        self._rest: Timer | None = None

    def run(self, work: Callable[..., Given], *values: object) -> Given:
        """What ``work``, a function that a module holds, gives for these values. All of it must be such as can be pickled.

        Raises what the work raises; Died, TooSlow and NotCarried where the process fails it.
        """
        asked = pickle.dumps((work.__qualname__, pickle.dumps((work, values))))
        with self._turn:
            outcome = self._outcome(work.__qualname__, asked)
        return cast(Given, outcome.settled())

    def close(self) -> None:
        """Ends the process, whatever it does. It is started again when more is wanted."""
        if (process := self._process) is not None:
            process.kill()
        if self._turn.acquire(timeout=ENDS_WITHIN):
            self._end()
            self._turn.release()

    def _outcome(self, name: str, asked: bytes) -> Outcome:
        process = self._awake(name)
        answer: Outcome | None = None
        limit = _Limit(process, self._seconds)
        try:
            with limit:
                answer = _answer(process, asked)
        finally:
            # Without an answer, for whatever reason, the next one to come would be for another question.
            if answer is None or limit.passed:
                self._end()
            else:
                self._rest_a_while()
        if answer is None:
            raise TooSlow(name, self._seconds) if limit.passed else Died(name, process.returncode)
        return answer

    def _awake(self, name: str) -> Popen[bytes]:
        """The process, started if it does not run."""
        if self._rest is not None:
            self._rest.cancel()
        if self._process is not None and self._process.poll() is not None:
            self._end()
        if self._process is None:
            try:
                self._process = _started()
            except OSError as failed:
                raise Died(name, None) from failed
            atexit.register(self.close)
        return self._process

    def _rest_a_while(self) -> None:
        self._rest = Timer(self._idle_seconds, self._rested)
        self._rest.daemon = True
        self._rest.start()

    def _rested(self) -> None:
        with self._turn:
            self._end()

    def _end(self) -> None:
        if (process := self._process) is None:
            return
        self._process = None
        atexit.unregister(self.close)
        process.kill()
        process.communicate()


class _Limit:
    """Ends a process after so many seconds, unless the block ended before."""

    def __init__(self, process: Popen[bytes], seconds: float) -> None:
        self.passed = False
        self._process = process
        self._timer = Timer(seconds, self._pass)
        self._timer.daemon = True

    def __enter__(self) -> None:
        self._timer.start()

    def __exit__(self, _kind: type[BaseException] | None, _error: BaseException | None, _trace: TracebackType | None) -> None:
        self._timer.cancel()

    def _pass(self) -> None:
        self.passed = True
        self._process.kill()


def _started() -> Popen[bytes]:
    """The other process. It finds its modules where this one does, and what we are told by the environment is not told to it.

    It is a session of its own: what is told to a whole group of processes, as Ctrl-C is, is for this one alone.
    """
    told = {name: value for name, value in os.environ.items() if not name.startswith(OURS)}
    # Absolute, as an empty place stands for the folder that this process was started in.
    path = os.pathsep.join(str(Path(place).absolute()) for place in sys.path)
    return Popen(
        [sys.executable, "-P", "-m", "bot.apart.child"],
        stdin=PIPE,
        stdout=PIPE,
        env=told | {"PYTHONPATH": path},
        start_new_session=True,
    )  # nosec B603


def _answer(process: Popen[bytes], asked: bytes) -> Outcome | None:
    """What the process answers; None when it ends before."""
    assert process.stdin is not None
    assert process.stdout is not None
    try:
        process.stdin.write(asked)
        process.stdin.flush()
        answer: Outcome = pickle.loads(pickle.load(process.stdout))  # nosec B301
    except (OSError, EOFError, pickle.UnpicklingError):
        with suppress(TimeoutExpired):
            process.wait(ENDS_WITHIN)
        return None
    return answer
