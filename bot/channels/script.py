"""Rehearsal scripts: lines of text -> steps."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TypeAlias, Union


class ScriptError(Exception):
    """Line ``number`` of a script cannot be played."""

    def __init__(self, number: int, line: str, reason: str) -> None:
        super().__init__(f"line {number}: {reason}: {line}")
        self.number = number
        self.line = line
        self.reason = reason


@dataclass(frozen=True, slots=True)
class At:
    """The clock moves to this local time."""

    when: datetime


@dataclass(frozen=True, slots=True)
class Say:
    text: str


@dataclass(frozen=True, slots=True)
class Edit:
    """The person edits their latest message to this."""

    text: str


@dataclass(frozen=True, slots=True)
class Tap:
    label: str


@dataclass(frozen=True, slots=True)
class Send:
    path: Path


@dataclass(frozen=True, slots=True)
class Here:
    """A shared location, in degrees."""

    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class Weather:
    """Forecasts come from this file from now on; None: they cannot be reached."""

    path: Path | None


@dataclass(frozen=True, slots=True)
class Link:
    """The calendar at this link is what the file says from now on; None: it cannot be reached."""

    link: str
    path: Path | None


@dataclass(frozen=True, slots=True)
class Crash:
    """The process's memory is lost."""


Step: TypeAlias = Union[At, Say, Edit, Tap, Send, Here, Weather, Link, Crash]


def read_step(number: int, line: str, folder: Path) -> Step | None:
    """The step on a line, None for an empty line or a remark. Paths are relative to ``folder``. Raises ScriptError."""
    text = line.strip()
    if not text or text.startswith("#"):
        return None
    word, _, rest = text.partition(" ")
    read = READERS.get(word)
    if read is None:
        raise ScriptError(number, text, "unknown step")
    try:
        return read(rest.strip(), folder)
    except ValueError as fault:
        raise ScriptError(number, text, str(fault)) from fault


def _at(rest: str, folder: Path) -> Step:
    try:
        return At(datetime.strptime(rest, "%Y-%m-%d %H:%M"))
    except ValueError as fault:
        raise ValueError("expected a time like 2026-03-02 05:55") from fault


def _here(rest: str, folder: Path) -> Step:
    try:
        latitude, longitude = (float(part) for part in rest.replace(",", " ").split())
    except ValueError as fault:
        raise ValueError("expected latitude and longitude like 51.05 3.72") from fault
    if not (abs(latitude) <= 90 and abs(longitude) <= 180):
        raise ValueError("no such place on earth")
    return Here(latitude, longitude)


def _weather(rest: str, folder: Path) -> Step:
    return Weather(None if rest == "none" else _file(rest, folder))


def _link(rest: str, folder: Path) -> Step:
    link, _, name = rest.partition(" ")
    if "://" not in link:
        raise ValueError("expected a link and a file's name")
    return Link(link, None if name.strip() == "none" else _file(name.strip(), folder))


def _send(rest: str, folder: Path) -> Step:
    return Send(_file(rest, folder))


def _file(rest: str, folder: Path) -> Path:
    path = folder / _wanted(rest, "a file's name")
    if not path.is_file():
        raise ValueError("no such file")
    return path


def _crash(rest: str, folder: Path) -> Step:
    if rest:
        raise ValueError("nothing may follow")
    return Crash()


def _wanted(rest: str, what: str) -> str:
    if not rest:
        raise ValueError(f"expected {what}")
    return rest


READERS: dict[str, Callable[[str, Path], Step]] = {
    "at": _at,
    "say": lambda rest, folder: Say(_wanted(rest, "what is said")),
    "edit": lambda rest, folder: Edit(_wanted(rest, "the new text")),
    "tap": lambda rest, folder: Tap(_wanted(rest, "a button's label")),
    "send": _send,
    "here": _here,
    "weather": _weather,
    "link": _link,
    "crash": _crash,
}
