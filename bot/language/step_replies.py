"""Answers to the first conversation's questions, where a bare answer is enough.

Read only after the general grammar found nothing better.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from storage.records import Step

HOUR = r"(\d{1,2}|noon|midnight)(?:[:.h](\d{2}))?(?:\s*([ap])\.?m\.?)?"
NAMED_HOURS = {"noon": "12", "midnight": "0"}
WINDOW = re.compile(rf"\s*{HOUR}\s*(?:-|–|to|until)\s*{HOUR}\s*")
TWO_TIMES = re.compile(rf"\s*{HOUR}\s*(?:,|and|;|/)?\s+{HOUR}\s*|\s*{HOUR}\s*,\s*{HOUR}\s*")
ZONE = re.compile(r"[A-Za-z]+(?:/[A-Za-z_ -]+){1,2}")
"""A zone's name in the tz database; those with figures are for seas and clocks without a place."""

LONGEST_NAME = 40
MOST_NAMES = 12


@dataclass(frozen=True, slots=True)
class StepReply:
    """Settings to keep, as ``Set`` names them, or names of categories."""

    settings: tuple[tuple[str, str], ...] = ()
    names: tuple[str, ...] = ()


def read_step(step: Step, text: str) -> StepReply | None:
    """What ``text`` answers to the question of ``step``; None when it does not look like an answer."""
    if step is Step.PLACE:
        name = " ".join(text.split())
        if ZONE.fullmatch(name):
            return StepReply(settings=(("zone", name),))
        return StepReply(settings=(("place", name),)) if _is_name(name) else None
    if step is Step.WAKING:
        window = _window(text)
        return StepReply(settings=(("waking", window),)) if window else None
    if step is Step.JOBS and _bare(text) in NO_JOBS:
        return StepReply()
    if step in (Step.CATEGORIES, Step.JOBS):
        names = _names(text)
        return StepReply(names=names) if names and len(names) <= MOST_NAMES and all(map(_is_category, names)) else None
    if step is Step.TIMES:
        times = _two_times(text)
        return StepReply(settings=(("morning", times[0]), ("evening", times[1]))) if times else None
    return None


def _names(text: str) -> tuple[str, ...]:
    """The names as typed, each once; but a capital that a phone puts at the start of a reply is no part of the first."""
    said = [" ".join(part.split()) for part in re.split(r"[,;\n]| and ", text) if part.strip()]
    if said and said[0][1:] == said[0][1:].lower():
        said[0] = said[0].lower()
    return tuple({name.casefold(): name for name in reversed(said)}.values())[::-1]


def answers_plainly(step: Step, text: str) -> bool:
    """Whether ``text`` has the shape of what the question asks for, a window or two times, so that it is nothing else: 9am-1am."""
    return step in (Step.WAKING, Step.TIMES) and read_step(step, text) is not None


def read_out_of_turn(step: Step, text: str) -> StepReply | None:
    """What ``text`` plainly answers although another question was asked; None when it does not say by its shape which one.

    A bare name could answer any of three questions, and two times at the question of waking hours may be meant as these.
    """
    if step is not Step.PLACE and ZONE.fullmatch(" ".join(text.split())):
        return read_step(Step.PLACE, text)
    return read_step(Step.WAKING, text) or (None if step is Step.WAKING else read_step(Step.TIMES, text))


YES = frozenset("yes ok okay keep both fine good right sure yep yeah".split())
GO_ON = frozenset("skip next later".split())
SKIP_REST = frozenset({"skip the rest", "skip rest", "skip all", "skip everything", "skip them all", "skip the others"})
HELLO = frozenset({"hi", "hello", "hey", "hi there", "hello there", "hey there", "good morning", "good evening", "good afternoon", "start"})
NO_JOBS = frozenset({"none", "no", "nothing", "no jobs", "none of them"})
NO = frozenset("no none nothing nope hi hello hey skip later".split())


def keeps_default(text: str) -> bool:
    """Whether ``text`` agrees to what the question offers, or goes on to the next."""
    return _bare(text) in YES | GO_ON


def skips(text: str) -> bool:
    """Whether ``text`` can only mean to leave the question open."""
    return _bare(text) == "skip"


def skips_rest(text: str) -> bool:
    """Whether ``text`` leaves all the questions that are left."""
    return _bare(text) in SKIP_REST


def says_hello(text: str) -> bool:
    """Whether ``text`` only greets, and so begins a first conversation."""
    return _bare(text) in HELLO


def _bare(text: str) -> str:
    return " ".join(text.lower().split()).strip(".! ")


def _is_category(text: str) -> bool:
    """As a name, or with a number behind a word: maths 2."""
    return text[:1].isalpha() and _is_name("".join(c for c in text if not c.isdigit()).strip())


def _is_name(text: str) -> bool:
    """Letters, perhaps spaces, hyphens and apostrophes, and not more than four words."""
    if text.lower() in YES | NO:
        return False
    return 0 < len(text) <= LONGEST_NAME and len(text.split()) <= 4 and all(c.isalpha() or c in " -'’.," for c in text)


def _window(text: str) -> str | None:
    match = WINDOW.fullmatch(text.lower())
    if match is None:
        return None
    start, end = _clock(*match.groups()[:3]), _clock(*match.groups()[3:])
    return f"{start}-{end}" if start and end and start != end else None


def _two_times(text: str) -> tuple[str, str] | None:
    match = TWO_TIMES.fullmatch(text.lower())
    if match is None:
        return None
    found = match.groups()
    first, second = (found[:3], found[3:6]) if found[0] else (found[6:9], found[9:])
    times = _clock(*first), _clock(*second)
    return (times[0], times[1]) if times[0] and times[1] else None


def _clock(hour: str, minute: str | None, half: str | None) -> str | None:
    """ "HH:MM", or None when there is no such time; ``half`` is the a of am, or the p of pm."""
    hours, minutes = int(NAMED_HOURS.get(hour, hour)), int(minute or 0)
    if half:
        hours = hours % 12 + (12 if half == "p" else 0) if 0 < hours <= 12 else 24
    return f"{hours:02d}:{minutes:02d}" if hours < 24 and minutes < 60 else None
