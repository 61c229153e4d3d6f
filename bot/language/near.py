"""The understood replies nearest to one that was not.

A reply fails for one of a few reasons, and each has its repair: a verb with a
typing mistake is set right; hours with words around them become a log with
these words as its note; a day or time with words becomes an appointment. A
repair says what the reply said, with its own numbers, days and words, and has
always been read and understood before it is offered. Where none fits there is
nothing to offer, least of all to small talk.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from itertools import islice

from bot.language.hours import Hours
from bot.language.left_out import guesses
from bot.language.meaning import Meaning
from bot.language.names import alike, mistyped
from bot.language.phrase import Explained, Phrase, explain, phrase_of
from bot.language.slots import Amount, Called, amount_said, called, day_ahead, day_back, hours_back

MOST = 3
VERBS = tuple(
    """
    done close drop reopen push later task todo goal appt meeting move cancel routine target start stop clock undo week month today tomorrow
    hours goals timesheet settings help quiet morning evening waking category
    """.split()
)
LONGEST_TRIED = 24
"""In tokens: a longer text is a story."""


def nearest(phrase: Phrase, read: Callable[[Phrase], Meaning | None]) -> tuple[str, ...]:
    """At most three replies that say what ``phrase`` may say and that ``read`` understands, likest first."""
    if not 0 < len(phrase.tokens) <= LONGEST_TRIED:
        return ()
    understood = (text for text in dict.fromkeys(_repairs(phrase)) if read(phrase_of(text, phrase.context)) is not None)
    return tuple(islice(understood, MOST))


def _repairs(phrase: Phrase) -> Iterator[str]:
    yield from _with_verb_set_right(phrase)
    yield from _as_hours(phrase)
    yield from _as_commitment(phrase)


def _with_verb_set_right(phrase: Phrase) -> Iterator[str]:
    """psuh 2 -> push 2."""
    first = phrase.word(0)
    for verb in VERBS:
        if first != verb and mistyped(first, verb) is not None:
            yield f"{verb} {phrase.original(1, len(phrase.tokens))}".strip()


def _as_hours(phrase: Phrase) -> Iterator[str]:
    """The hours in the reply, for the category it names or may mean, with its other words as a note."""
    if phrase.word(0) in VERBS:
        return
    said = explain(phrase, (hours_back, called, amount_said, day_back))
    hours = [piece for piece in said.pieces if isinstance(piece.value, Amount | Hours)]
    if len(hours) != 1:
        return
    quantity = phrase.original(hours[0].at, hours[0].end)
    days = [phrase.original(piece.at, piece.end) for piece in said.pieces if isinstance(piece.value, date)]
    note = _other_words(said)
    for category in _likely(said):
        alone = " ".join([*days, quantity, category])
        yield from [f"{alone} - {note}", alone] if " " in note else [alone, f"{alone} - {note}"] if note else [alone]


def _likely(said: Explained) -> list[str]:
    call = said.one(Called)
    if call is not None:
        return list(call.names[:2])
    meant = [name for at in said.left for name in alike(said.phrase.word(at), said.phrase.names)]
    context = said.phrase.context
    guessed = guesses(context, context.now.date(), None, None)
    return meant[:2] or ([guessed[0].category] if len(guessed) == 1 else [])


def _as_commitment(phrase: Phrase) -> Iterator[str]:
    """A day and other words: appt friday 15:00 dentist."""
    said = explain(phrase, (day_ahead,))
    words = _other_words(said)
    if len(said.pieces) != 1 or not words or phrase.word(0) in VERBS or phrase.tokens[-1].text == "?":
        return
    day = phrase.original(said.pieces[0].at, said.pieces[0].end)
    yield f"appt {day} {words}"
    yield f"task {words} {day}"


def _other_words(said: Explained) -> str:
    stretches = [stretch for stretch in said.stretches() if any(said.phrase.word(at).isalnum() for at in range(*stretch))]
    return " ".join(said.phrase.original(at, end) for at, end in stretches)
