"""What a library loads where it is installed, and this program never uses of it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import ModuleType
from typing import cast


@contextmanager
def left_out(package: str) -> Iterator[None]:
    """To what is imported in this block the package is not there; afterwards it is. One that is loaded already stays.

    Source: the Python Language Reference, 5.3.1, on None as the value of a name in ``sys.modules``.
    """
    if package in sys.modules:
        yield
        return
    sys.modules[package] = cast(ModuleType, None)
    try:
        yield
    finally:
        del sys.modules[package]
