"""All that the bot can say, looked at side by side: none left out, plurals right, days and figures as the person writes them."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from bot.voice import replies as r
from bot.voice.manners import manners_of
from bot.voice.say import VOICES
from storage.records import ClockStyle
from tests.voice.all_sentences import BESIDE, MANNERS, NOW, OF_24_HOURS, SAID_OTHERWISE, kinds, lines_of, messages_of, told
from tests.voice.spoken import PEOPLE

TRIED = 40
AMERICAN = manners_of(PEOPLE[1], NOW)
"""Month before day, and a comma in decimals."""

BY_TWELVE = replace(MANNERS, clock_style=ClockStyle.TWELVE)
QUOTED = (r.Undone, r.UndoAsked)
"""What says again the words of an entry, which stay as they were written."""

ONE_OF_MANY = re.compile(r"\b1 (tasks|days|weeks|months|events|commitments|messages|times|pieces|stints|hours|goals)\b")
UNSAID = re.compile(r"\bNone\b|[<>]|  |\.\.|[ (][,;.](?= |$)|[•✓✔✗✘☐☑→←⇒⏰📅✅❌]")
DAY_BEFORE_MONTH = re.compile(r"\b\d{1,2} (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)")
POINT = re.compile(r"\d\.\d")
HALVES_OF_TWELVE = re.compile(r"\b12(?::00)? ?[ap]m\b")
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


@pytest.mark.parametrize("kind", [kind for kind in kinds() if kind not in QUOTED], ids=lambda kind: kind.__name__)
def test_no_time_of_the_24_hour_clock_is_said_to_who_lives_by_the_12_hour_one(kind: type[r.Reply]) -> None:
    for message in messages_of(kind, BY_TWELVE, TRIED):
        for line in lines_of(message):
            assert not OF_24_HOURS.search(line), line
            assert not HALVES_OF_TWELVE.search(line), line


def test_that_test_would_find_a_forgotten_time() -> None:
    for forgotten in ("Museum 13:00–17:00", "since 9:00.", "9:00–5:00", "at 05:30 am", "20:00"):
        assert OF_24_HOURS.search(forgotten), forgotten
    for good in ("1:00–5:00 pm", "9:30 am.", "museum 7:30-9pm", "noon–1:05 pm"):
        assert not OF_24_HOURS.search(good), good
    assert OF_24_HOURS.search("\n".join(line for message in messages_of(r.ClockVoided, MANNERS, 1) for line in lines_of(message)))
