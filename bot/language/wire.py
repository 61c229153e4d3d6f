"""Meanings as JSON: one shape for those who ask from outside, one for keeping what a button does.

``to_wire`` gives the shape that ``understand --json`` promises: every field of
the kind is there, and one that the reply does not fill is null. It leaves out
ids, which only buttons carry. ``to_json`` and ``from_json`` lose nothing.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import Field, fields
from datetime import date, time
from functools import singledispatch
from typing import Any, TypeAlias, Union, cast, get_args

from bot.language.meaning import (
    AddCommitment,
    AddTask,
    Amend,
    Ask,
    Cancel,
    ClockIn,
    ClockOut,
    Close,
    Drop,
    Log,
    Meaning,
    Move,
    Reopen,
    SaidStint,
    Several,
    Show,
    Unknown,
)
from bot.language.pick import Pick

Json: TypeAlias = Union[bool, int, str, list["Json"], dict[str, "Json"], None]

KINDS: dict[str, Callable[..., object]] = {kind.__name__: kind for kind in (*get_args(Meaning), SaidStint, Pick)}

SLOTS: dict[str, tuple[Field[Any], ...]] = {name: fields(kind) for name, kind in KINDS.items()}  # type: ignore[arg-type]  # All are dataclasses.


class UnreadableMeaning(ValueError):
    """``text`` is not a meaning that ``to_json`` wrote."""

    def __init__(self, text: str) -> None:
        super().__init__(f"not a kept meaning: {text[:80]!r}")
        self.text = text


def to_json(meaning: Meaning) -> str:
    """``meaning`` as one line of JSON that ``from_json`` reads back without loss, ids included."""
    return _WRITER.encode(meaning)


def from_json(text: str) -> Meaning:
    """The meaning that ``to_json`` wrote as ``text``. Raises UnreadableMeaning when it is anything else."""
    try:
        meaning = _read(json.loads(text))
    except (ValueError, TypeError, KeyError) as error:
        raise UnreadableMeaning(text) from error
    if type(meaning).__name__ not in KINDS or isinstance(meaning, SaidStint | Pick):
        raise UnreadableMeaning(text)
    return cast("Meaning", meaning)


def _kept(value: object) -> dict[str, object]:
    """What JSON lacks as an object with the name of its type under ``is``; fields that hold their default are left out."""
    kept: dict[str, object] = {"is": type(value).__name__}
    if isinstance(value, date | time):
        kept["at"] = value.isoformat()
        return kept
    for slot in SLOTS[type(value).__name__]:
        held = getattr(value, slot.name)
        # One that has no default has a value there that nothing equals.
        if held != slot.default:
            kept[slot.name] = held
    return kept


_WRITER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), default=_kept)


def _read(raw: object) -> object:
    """The value that ``_kept`` gave as ``raw``."""
    if isinstance(raw, list):
        return tuple(_read(item) for item in raw)
    if not isinstance(raw, dict):
        return raw
    name = raw["is"]
    if name == "date":
        return date.fromisoformat(raw["at"])
    if name == "time":
        return time.fromisoformat(raw["at"])
    return KINDS[name](**{slot: _read(value) for slot, value in raw.items() if slot != "is"})


@singledispatch
def to_wire(meaning: Meaning) -> dict[str, Json]:
    """``meaning`` as the object that ``understand --json`` prints, without the ``text`` that its caller adds.

    Days are ISO dates, times HH:MM, lengths minutes; a choice of ``ask`` is such an object in turn.
    """
    wire: dict[str, Json] = {"kind": _kind(meaning)}
    for slot in fields(meaning):
        value = getattr(meaning, slot.name)
        if isinstance(value, Pick):
            wire |= _pick(value)
        elif slot.name not in INSIDE:
            wire[slot.name] = _plain(value)
    return wire


def _kind(meaning: Meaning) -> str:
    """The kind's name outside: AddTask is add_task."""
    return "".join(f"_{letter.lower()}" if letter.isupper() else letter for letter in type(meaning).__name__).removeprefix("_")


INSIDE = frozenset({"id", "from_day", "entry", "again", "period", "either", "or_hours", "instead"})
"""Fields that only buttons and our own actions use."""


@to_wire.register
def _(meaning: Log) -> dict[str, Json]:
    return {"kind": "log", "stints": [_stint(stint) for stint in meaning.stints]}


def _stint(stint: SaidStint) -> Json:
    return {
        "category": stint.category,
        "day": _plain(stint.day),
        "start": _plain(stint.start),
        "end": _plain(stint.end),
        "minutes": stint.minutes,
        "break_minutes": stint.break_minutes,
        "tasks": list(stint.tasks),
        "note": stint.note,
    }


@to_wire.register
def _(meaning: ClockIn) -> dict[str, Json]:
    return {"kind": "clock_in", "category": meaning.category, "time": _plain(meaning.time)}


@to_wire.register
def _(meaning: ClockOut) -> dict[str, Json]:
    return {"kind": "clock_out", "category": meaning.category, "time": _plain(meaning.time)}


@to_wire.register(Close)
@to_wire.register(Drop)
@to_wire.register(Reopen)
def _closing(meaning: Close | Drop | Reopen) -> dict[str, Json]:
    minutes = meaning.minutes if isinstance(meaning, Close) else None
    return {"kind": _kind(meaning), **_pick(meaning.tasks), "minutes": minutes}


def _pick(pick: Pick) -> dict[str, Json]:
    numbers: list[Json] = ["all"] if pick.all else list(pick.numbers)
    return {"tasks": numbers or None, "words": pick.words}


@to_wire.register
def _(meaning: Several) -> dict[str, Json]:
    return {"kind": "several", "parts": [to_wire(part) for part in meaning.parts]}


@to_wire.register
def _(meaning: Ask) -> dict[str, Json]:
    return {"kind": "ask", "choices": [to_wire(choice) for choice in meaning.choices]}


@to_wire.register
def _(meaning: Unknown) -> dict[str, Json]:
    return {"kind": "unknown", "near": list(meaning.near)}


@to_wire.register
def _(meaning: Show) -> dict[str, Json]:
    return {
        "kind": "show",
        "what": meaning.what,
        "day": _plain(meaning.day),
        "from": _plain(meaning.first),
        "to": _plain(meaning.last),
        "category": meaning.category,
        **({"topic": meaning.topic} if meaning.what == "times" and meaning.topic else {}),
        **({"back": meaning.back} if meaning.back else {}),
        # Only a file has a form; what is shown in the chat keeps the fields it has always had.
        **({"form": meaning.form} if meaning.form else {}),
    }


@to_wire.register
def _(meaning: AddCommitment) -> dict[str, Json]:
    return {
        "kind": "add_commitment",
        "title": meaning.title,
        "day": _plain(meaning.day),
        "start": _plain(meaning.start),
        "end": _plain(meaning.end),
        "category": meaning.category,
        "rule": meaning.rule,
        "major": meaning.major,
        "outdoors": meaning.outdoors,
        **({} if meaning.minutes_before is None else {"minutes_before": meaning.minutes_before}),
        **({} if meaning.minutes_after is None else {"minutes_after": meaning.minutes_after}),
    }


@to_wire.register
def _(meaning: Move) -> dict[str, Json]:
    by: dict[str, Json] = {} if meaning.by is None else {"by": meaning.by}
    to: dict[str, Json] = {"day": _plain(meaning.day), "start": _plain(meaning.start), "end": _plain(meaning.end)}
    return {"kind": "move", "words": meaning.words, **to, **by, **({"keeps_end": True} if meaning.keeps_end else {})}


@to_wire.register
def _(meaning: Amend) -> dict[str, Json]:
    only_if_said = {"by": meaning.by, "of_category": meaning.of_category, "of_title": meaning.of_title, "of_day": _plain(meaning.of_day)}
    return {
        "kind": "amend",
        "minutes": meaning.minutes,
        "start": _plain(meaning.start),
        "end": _plain(meaning.end),
        "break_minutes": meaning.break_minutes,
        "day": _plain(meaning.day),
        "category": meaning.category,
        **{name: value for name, value in only_if_said.items() if value is not None},
    }


@to_wire.register
def _(meaning: Cancel) -> dict[str, Json]:
    return {
        "kind": "cancel",
        "words": meaning.words,
        "day": _plain(meaning.day),
        "start": _plain(meaning.start),
        "end": _plain(meaning.end),
        **({"last": _plain(meaning.last)} if meaning.last else {}),
    }


@to_wire.register
def _(meaning: AddTask) -> dict[str, Json]:
    return {
        "kind": "add_task",
        "title": meaning.title,
        "day": _plain(meaning.day),
        "category": meaning.category,
        "estimate_minutes": meaning.estimate_minutes,
        "goal": meaning.goal,
    }


def _plain(value: object) -> Json:
    if isinstance(value, time):
        return value.strftime("%H:%M")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return cast("Json", value)
