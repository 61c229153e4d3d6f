"""All that the bot can say, looked at side by side: none left out, plurals right, days and figures as the person writes them."""

from __future__ import annotations

import re

import pytest

from bot.voice import replies as r
from bot.voice.manners import manners_of
from bot.voice.say import VOICES
from tests.voice.all_sentences import BESIDE, MANNERS, NOW, SAID_OTHERWISE, kinds, lines_of, messages_of, told
from tests.voice.spoken import PEOPLE

TRIED = 40
AMERICAN = manners_of(PEOPLE[1], NOW)
"""Month before day, and a comma in decimals."""

ONE_OF_MANY = re.compile(r"\b1 (tasks|days|weeks|months|events|commitments|messages|times|pieces|stints|hours|goals)\b")
UNSAID = re.compile(r"\bNone\b|[<>]|  |\.\.|[ (][,;.](?= |$)|[•✓✔✗✘☐☑→←⇒⏰📅✅❌]")
DAY_BEFORE_MONTH = re.compile(r"\b\d{1,2} (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)")
POINT = re.compile(r"\d\.\d")
COORDINATES = re.compile(r"\(-?\d+\.\d\d, -?\d+\.\d\d\)")


def test_every_kind_of_reply_is_there() -> None:
    shown = set(kinds())
    assert set(VOICES) <= shown
    named = {getattr(r, name) for name in r.__all__}
    others = {kind.__name__ for kind in named - shown if isinstance(kind, type) and issubclass(kind, r.Reply)}
    assert others == {"Reply", "Together", "Enclosing"}
    assert {type(each) for each in SAID_OTHERWISE} == shown - set(VOICES)


def test_only_what_is_new_is_shown_twice() -> None:
    lines = list(told(r.ClockVoided))
    assert lines == ["Museum: the clock since 09:00 is stopped, with nothing logged."]
    assert BESIDE


@pytest.mark.parametrize("kind", kinds(), ids=lambda kind: kind.__name__)
def test_what_is_said_reads_well(kind: type[r.Reply]) -> None:
    for message in messages_of(kind, MANNERS, TRIED):
        assert message.text.count("\n") < 20, message.text
        for line in lines_of(message):
            assert not ONE_OF_MANY.search(line), line
            assert not UNSAID.search(line), line
            assert line[:1] == line[:1].strip(), line


@pytest.mark.parametrize("kind", kinds(), ids=lambda kind: kind.__name__)
def test_days_and_figures_are_written_as_the_person_writes_them(kind: type[r.Reply]) -> None:
    if kind in (r.Help, r.NotUnderstood, r.Undone, r.UndoAsked):
        pytest.skip("it says what was written before, or how to write it")
    for message in messages_of(kind, AMERICAN, TRIED):
        for line in lines_of(message):
            assert not DAY_BEFORE_MONTH.search(line), line
            assert not POINT.search(COORDINATES.sub("", line)), line
