"""Running without the tracer that measures coverage: for what is timed, and for long runs through code that other tests cover."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def untraced() -> Iterator[None]:
    """No tracer within; the one that was there is back afterwards."""
    tracer = sys.gettrace()
    sys.settrace(None)
    try:
        yield
    finally:
        sys.settrace(tracer)
