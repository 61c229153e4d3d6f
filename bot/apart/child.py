"""The other process: does what it is asked, one thing after another, until nobody is there to ask.

    python -m bot.apart.child

Questions come by standard input and answers go by standard output, pickled; both ends are ourselves.
"""

from __future__ import annotations

import logging
import os
import pickle  # nosec B403
import select
import signal
import sys
from concurrent.futures import ThreadPoolExecutor
from io import BufferedReader
from threading import Thread
from typing import BinaryIO

from bot.apart.outcomes import Gave, NotCarried, raised
from bot.secrecy import Secrecy


def serve(questions: BufferedReader, answers: BinaryIO) -> None:
    """Answers until the questions end. Each is a name for the work, and the pickled function and values."""
    # Whatever happens to the work in its thread is its outcome, and does not end this loop.
    with ThreadPoolExecutor(1) as worker:
        while questions.peek(1):
            name, asked = pickle.load(questions)  # nosec B301
            pickle.dump(_answer(worker, name, asked), answers)
            answers.flush()


def _answer(worker: ThreadPoolExecutor, name: str, asked: bytes) -> bytes:
    """The pickled outcome."""
    done = worker.submit(_done, asked)
    error = done.exception()
    outcome = Gave(done.result()) if error is None else raised(error)
    packed = worker.submit(pickle.dumps, outcome)
    if packed.exception() is None:
        return packed.result()
    return pickle.dumps(raised(NotCarried(name, type(error or done.result()).__name__)))


def _done(asked: bytes) -> object:
    # What the work needs is imported here, too.
    work, given = pickle.loads(asked)  # nosec B301
    return work(*given)


def _end_with_who_asks() -> None:
    """Ends at once, whatever is being done, when the other end of the questions is closed: nobody wants the answer any more."""
    hung_up = select.poll()
    hung_up.register(sys.stdin.fileno(), 0)
    hung_up.poll()
    os._exit(0)


def main() -> None:
    """Answers what comes by standard input."""
    # Who asks ends it; what is told to the whole group of processes is for that one alone.
    for each in (signal.SIGTERM, signal.SIGINT):
        signal.signal(each, signal.SIG_IGN)
    Secrecy().keep()
    # What goes wrong is told by the answer; the log's lines are written by who asks, in their form.
    logging.getLogger().addHandler(logging.NullHandler())
    # What a library prints must not come between the answers.
    with os.fdopen(os.dup(sys.stdout.fileno()), "wb") as answers:
        os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
        Thread(target=_end_with_who_asks, daemon=True).start()
        serve(os.fdopen(sys.stdin.fileno(), "rb", closefd=False), answers)


if __name__ == "__main__":
    main()
