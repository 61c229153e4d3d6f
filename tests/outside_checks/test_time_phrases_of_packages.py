"""Our readers on the phrases that three other readers of times are tested with.

Each set comes from the tests or the training data inside an installed package,
and is only read, never run (see ``phrases_of_packages``). A set may mean something
else than we do, so each has a floor that is stated here, and what is left
out of it is said beside it.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime

from bot.language.amounts import read_amount
from bot.language.context import Context
from bot.language.days import read_day
from bot.language.moments import read_moment
from bot.language.recurrence import read_rule
from bot.language.tokens import tokenize
from tests.outside_checks.phrases_of_packages import Lasting, Recurring, Timed, lastings, recurrings, timed

FLOOR_OF_PYTIMEPARSE = 0.95
FLOOR_OF_RECURRENT = 0.85
FLOOR_OF_CTPARSE = 0.85

# recurrent's tests are set on the first day of 2010.
NEW_YEAR = Context(datetime(2010, 1, 1, tzinfo=UTC))
# A commitment that comes again within the day, or but for a rule of its own, is none that we keep.
NOT_OURS = {"minutely", "secondly", "hourly"}
# The corpus of ctparse is English and German; these are its German words.
GERMAN = frozenset(
    (
        "ab abends am bei bis dem den der dez dezember die dienstag dienstags diesen dieser donnerstag dritter eben ein eine "
        "einen ende freitag gegen genau gerade gestern halb heute im jahr jahre januar jetzt juli juni mai minuten mittwoch mo "
        "monat monats montag morgen morgens mrz nach nacht nachts neun oktober samstag sonntag spätestens stunde stunden tage "
        "tagen uhr um und viertel von vor vorgestern woche wochen zeit zu zum zur zwei zwischen "
    ).split()
)


def test_pytimeparses_lengths() -> None:
    """Left out: lengths below zero, and 4:13 alone, which there is minutes and seconds and here hours and minutes."""
    phrases = [lasting for lasting in lastings() if not lasting.phrase.startswith("-") and lasting.phrase.count(":") != 1]
    assert len(phrases) >= 80
    assert rate([is_length(lasting) for lasting in phrases]) >= FLOOR_OF_PYTIMEPARSE


def test_recurrents_recurrences() -> None:
    """Left out: what comes again within a day, and rules with exceptions."""
    phrases = [recurring for recurring in recurrings() if recurring.parts["freq"] not in NOT_OURS and "exrule" not in recurring.parts]
    # Release 0.3.0, the last one with a wheel, has 53 of them; 0.4.1 has 136.
    assert len(phrases) >= 50
    assert rate([is_recurrence(recurring) for recurring in phrases]) >= FLOOR_OF_RECURRENT


def test_ctparses_days_and_times() -> None:
    """Left out: German, stretches of days or with an open end, parts of the day without an hour, and years alone."""
    phrases = [(phrase, wanted) for phrase in timed() if (wanted := _wanted(phrase))]
    assert len(phrases) >= 100
    assert rate([is_timed(phrase, wanted) for phrase, wanted in phrases]) >= FLOOR_OF_CTPARSE


def rate(right: list[bool]) -> float:
    return sum(right) / len(right)


def is_length(lasting: Lasting) -> bool:
    tokens = tokenize(lasting.phrase)
    found = read_amount(tokens, 0)
    return found is not None and found.end == len(tokens) and lasting.seconds is not None and found.value == round(lasting.seconds / 60)


def is_recurrence(recurring: Recurring) -> bool:
    tokens = tokenize(recurring.phrase)
    found = read_rule(tokens, 0, NEW_YEAR)
    if found is None or found.end != len(tokens):
        return False
    ours = dict(part.split("=") for part in found.value.text.split(";"))
    theirs = {name.upper(): value for name, value in recurring.parts.items() if name not in ("dtstart", "byhour", "byminute")}
    ours.setdefault("INTERVAL", "1")
    start = found.value.start
    times = (str(start.hour), str(start.minute)) if start else (None, None)
    return _unordered(ours) == _unordered(theirs) and times == (recurring.parts.get("byhour"), recurring.parts.get("byminute"))


def _unordered(parts: dict[str, str]) -> dict[str, list[str]]:
    return {name: sorted(value.upper().split(",")) for name, value in parts.items()}


def _wanted(phrase: Timed) -> tuple[str, str, str | None] | None:
    """The day, the start and the end that a phrase denotes, X where one is open; None for those left out."""
    kind, _, inside = phrase.denotes.partition("[]{")
    words = set(re.findall(r"[^\W\d]+", phrase.phrase.lower()))
    ends = [end.split(" ") for end in inside.rstrip("}").split(" - ")]
    if kind not in ("Time", "Interval") or words & GERMAN or not phrase.phrase.isascii() or any(end[0] == "None" for end in ends):
        return None
    if kind == "Time":
        day, start, part = ends[0]
        return (day, start, None) if part == "(X/X)" and (day[-1] != "X" or start != "X:X") else None
    (day, start, _), (last_day, end, _) = ends
    return (day, start, end) if start != "X:X" and day == last_day else None


def is_timed(phrase: Timed, wanted: tuple[str, str, str | None]) -> bool:
    """Whether one of our likeliest readings is the one wanted."""
    day, start, end = wanted
    context = replace(NEW_YEAR, now=phrase.now.replace(tzinfo=UTC))
    tokens = tokenize(phrase.phrase)
    if start == "X:X":
        read = read_day(tokens, 0, context, "forward", alone=True)
        return read is not None and read.end == len(tokens) and read.value.isoformat() == day
    found = read_moment(tokens, 0, context, "forward")
    if found is None or found.end != len(tokens):
        return False
    options = (found.value, *found.value.others)
    return any(
        day in ("X-X-X", str(option.day or phrase.now.date()))
        and option.start is not None
        and option.start.isoformat("minutes") == start
        and (end is None or (option.end is not None and option.end.isoformat("minutes") == end))
        for option in options
    )
