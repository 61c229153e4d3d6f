"""Works for a process of its own: good ones, and every bad one."""

from __future__ import annotations

import ctypes
import os
import sys
import time


class Unready(Exception):
    """As most errors of the house: made of something else than its ``args``."""

    def __init__(self, what: str, minutes: int) -> None:
        super().__init__(f"{what} is not ready")
        self.what = what
        self.minutes = minutes


def twice(number: int) -> int:
    return 2 * number


def refuse(what: str) -> None:
    raise Unready(what, 20)


def own_number() -> int:
    return os.getpid()


def told(name: str) -> str | None:
    return os.environ.get(name)


def command_line() -> str:
    with open("/proc/self/cmdline", encoding="utf-8") as line:
        return line.read().replace("\0", " ")


def say_aloud() -> str:
    sys.stdout.write("a library says something")
    sys.stdout.flush()
    return "done"


def crash() -> None:
    """As a library in C may: reads where nothing is."""
    ctypes.string_at(0)


def leave() -> None:
    sys.exit(3)


def hang() -> None:
    time.sleep(600)


def give_what_stays_here() -> object:
    return lambda: None
