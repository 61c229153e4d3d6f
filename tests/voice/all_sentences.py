"""Prints all that the bot can say, side by side, to be read aloud: ``python -m tests.voice.all_sentences [NAME …]``.

Of each kind of reply one message whole, then, set in, those lines of others in which something is new.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, get_args, get_type_hints

from hypothesis import HealthCheck, Phase, given, settings

from bot.actions.setting import CHANGES
from bot.channels.script import ScriptError
from bot.exporting.about import NoExport
from bot.faults import in_words
from bot.language.context import Context, Named
from bot.language.meaning import Close
from bot.language.pick import Pick
from bot.outside.faults import Fault, OutsideError
from bot.voice import replies as r
from bot.voice.help_said import HELP
from bot.voice.manners import Manners, manners_of
from bot.voice.message import Message
from bot.voice.picture_words import NOT_MADE, TOO_LARGE
from bot.voice.post_said import PERHAPS_A_REPEAT
from bot.voice.say import VOICES, say
from storage import errors
from tests.rules.made import wall
from tests.voice.spoken import PEOPLE, SAID, SPOKEN, STEPS, own_words

NOW = wall("2026-03-03 18:00")
MANNERS = manners_of(PEOPLE[0], NOW)
CATEGORIES = tuple(Named(name, (), "work", name != "learning") for name in ("museum", "workshop", "learning"))
CONTEXT = Context(NOW.astimezone(MANNERS.zone), CATEGORIES, ("work", "personal"), tasks=((1, "oil the chains"),))
TRIED = 150
"""Replies of a kind that are tried for new sentences."""

ALIKE = settings(derandomize=True, database=None, deadline=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))

NEVER_EMPTY = (r.CategoriesKept, r.JobsView, r.EventsMarked, r.JobsKept, r.ReminderKept, r.HoursClash, r.NotedAlready)
"""Those whose lists always hold something."""

SAID_OTHERWISE: tuple[r.Reply, ...] = (
    r.Question((SAID, Close(Pick(numbers=(1,))))),
    r.NotUnderstood("the glazier says hello", ("task call the glazier", "done glazier")),
    r.NotUnderstood("3 hours of nothing", (), "Museum, Tue 3 Mar: 4 h"),
    r.Undone("Museum, Tue 3 Mar: 4 h", 1),
    r.Undone("Museum, Tue 3 Mar: 4 h", 1, again=True),
    r.UndoAsked("Museum, Tue 3 Mar: 4 h", 1),
    r.UndoAsked("Museum, Tue 3 Mar: 4 h", 1, "question"),
    r.UndoAsked("Museum, Tue 3 Mar: 4 h", 1, "message"),
    r.UndoAsked("Museum, Tue 3 Mar: 4 h", 1, "message to redo"),
    r.Unwelcome(),
)
"""Those that ``say`` words without a row of ``VOICES``."""

BESIDE = (PERHAPS_A_REPEAT, NOT_MADE, TOO_LARGE)
FILE = Path("week.sqlite")
FAULTS: tuple[Exception, ...] = (
    *(fault(FILE) for fault in (errors.Busy, errors.NoKey, errors.WrongKey, errors.AlreadyThere)),
    *(fault(FILE, "disk I/O error") for fault in (errors.Unreadable, errors.Locked, errors.NoRoom, errors.Faulty)),
    errors.TooNew(FILE, "0099"),
    errors.NoSealing(),
    errors.NotEmpty(),
    errors.Malformed("stints", 3, "minutes"),
    errors.Unsupported("nowhere://"),
    NoExport(FILE, "two exports of the same person"),
    ScriptError(7, "tap Nowhere", "no message has that button"),
    OutsideError(Fault.TIMED_OUT),
)


def kinds() -> tuple[type[r.Reply], ...]:
    """Every kind of reply that has words of its own."""
    return (*VOICES, *dict.fromkeys(type(reply) for reply in SAID_OTHERWISE))


def messages_of(kind: type[r.Reply], manners: Manners = MANNERS, tried: int = TRIED) -> list[Message]:
    """Messages of this kind, with all sentences that it is likely to hold, the same ones every time."""
    return [say(reply, manners, lambda: CONTEXT) for reply in _said_of(kind, tried)]


def reasons() -> tuple[str, ...]:
    """All reasons that a refusal has."""
    return get_args(get_type_hints(r.Refusal)["reason"])


def _said_of(kind: type[r.Reply], tried: int) -> Iterator[r.Reply]:
    """Each reason, topic, setting or step where there are such, else many replies drawn."""
    if kind not in VOICES:
        yield from (reply for reply in SAID_OTHERWISE if type(reply) is kind)
    elif kind is r.Refusal:
        yield from (r.Refusal(reason, "museum") for reason in reasons())  # type: ignore[arg-type]
    elif kind is r.Help:
        yield from (r.Help(topic) for topic in (None, *HELP))
    elif kind is r.SettingKept:
        yield from (r.SettingKept(name, "", person, NOW) for person in PEOPLE for name in CHANGES)
    elif kind is r.Greeting:
        yield from (r.Greeting(person, ("museum", "workshop", "learning"), jobs) for person in STEPS for jobs in ((), ("museum",)))
    else:
        yield from _drawn(kind, tried)


def _drawn(kind: type[r.Reply], tried: int) -> list[r.Reply]:
    found: list[r.Reply] = []

    @settings(ALIKE, max_examples=tried)
    @given(replace(SPOKEN, fewest=kind in NEVER_EMPTY).made(kind))
    def note(reply: Any) -> None:
        found.append(reply)

    note()
    return found


def told(kind: type[r.Reply]) -> Iterator[str]:
    """The message of this kind that holds most, then the lines of others in which something is new."""
    messages = sorted(messages_of(kind), key=lambda message: -len(_shapes_of(message)))
    yield from lines_of(messages[0])
    known = _shapes_of(messages[0])
    for line in dict.fromkeys(line for message in messages[1:] for line in lines_of(message)):
        if not shapes(line) <= known:
            known |= shapes(line)
            yield f"    {line}"


def _shapes_of(message: Message) -> set[str]:
    return {part for line in lines_of(message) for part in shapes(line)}


def lines_of(message: Message) -> list[str]:
    """The lines and the labels of the buttons."""
    return [*message.text.splitlines(), *(f"[{tap.label}]" for row in message.buttons for tap in row)]


OF_24_HOURS = re.compile(r"\b(?:0\d|1[3-9]|2[0-4]):[0-5]\d|\b\d{1,2}:[0-5]\d(?!(?:[–-]\d{1,2}(?::[0-5]\d)?)? ?[ap]m\b)")
"""A time that only the 24-hour clock has, or one without am or pm behind it or behind its span."""

FIGURES = r"\d+|(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day|Mon|Tue|Wed|Thu|Fri|Sat|Sun|January|March|Jan|Mar|Dec|yesterday|today|tomorrow"
OWN = re.compile("|".join(sorted(map(re.escape, own_words()), key=len, reverse=True)) + "|" + FIGURES, re.I)
"""What stands for nothing but itself in a sentence: the person's words, figures, days."""


def shapes(line: str) -> set[str]:
    """The parts of a line without the person's words and figures."""
    bare = re.sub(r"#(?:(?: h|:|–|-|/| and|\.|,| min)? ?#| min\b| h\b)*", "#", OWN.sub("#", line))
    return set(re.split(r"[;:,.] | and | or ", bare.rstrip(".")))


def main(names: list[str]) -> None:
    """Prints those of these kinds, or all, with what may stand beside a message and what commands say when they cannot go on."""
    for kind in kinds():
        if not names or kind.__name__ in names:
            sys.stdout.write("\n".join((f"\n== {kind.__name__}", *told(kind), "")))
    if not names:
        sys.stdout.write("\n".join(("\n== Beside a message", *BESIDE, "\n== Commands", *(in_words(fault) for fault in FAULTS), "")))


if __name__ == "__main__":
    main(sys.argv[1:])
