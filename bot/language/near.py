"""The understood replies nearest to one that was not.

A reply fails for one of a few reasons, and each has its repair: a verb with a
typing mistake is set right; hours with words around them become a log with
these words as its note; a day or time with words becomes an appointment.
Failing these, the nearest of some everyday replies are shown. A repair has
always been read and understood before it is offered.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import islice

from rapidfuzz import fuzz, process

from bot.language.context import Context
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
EXAMPLES = (
    "2h {category}",
    "{category} 9-12",
    "yesterday 2h {category}",
    "in {category}",
    "out",
    "done 1",
    "push 1",
    "push 1 to friday",
    "drop 1",
    "reopen 1",
    "task call Ann",
    "goal repair the shed",
    "appt tomorrow 15:00 dentist",
    "move dentist to friday",
    "cancel dentist",
    "today",
    "tomorrow",
    "week",
    "hours",
    "goals",
    "undo",
    "help",
    "settings",
    "routine exercise 30m every day",
    "target {category} at least 5h",
    "morning at 6:30",
)
LEAST_LIKENESS = 55.0
LONGEST_TRIED = 24
"""In tokens: a longer text is a story, and gets the general examples only."""
DAILY = ("2h {category}", "done 1", "task call Ann")


def nearest(phrase: Phrase, read: Callable[[Phrase], Meaning | None]) -> tuple[str, ...]:
    """At most three replies like ``phrase`` that ``read`` understands, likest first."""
    found: dict[str, None] = {}
    if 0 < len(phrase.tokens) <= LONGEST_TRIED:
        repairs = (text for text in _repairs(phrase) if read(phrase_of(text, phrase.context)) is not None)
        found.update(dict.fromkeys(islice(repairs, MOST)))
        found.update(dict.fromkeys(_like_examples(phrase)))
    found.update(dict.fromkeys(_filled(DAILY, phrase.context)))
    return tuple(islice(found, MOST))


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
    said = explain(phrase, (hours_back, called, amount_said, day_back))
    hours = next((piece for piece in said.pieces if isinstance(piece.value, Amount | Hours)), None)
    if hours is None:
        return
    quantity = phrase.original(hours.at, hours.end)
    note = _other_words(said)
    for category in _likely(said):
        with_note = [f"{quantity} {category} - {note}"] if note else []
        alone = [f"{quantity} {category}"]
        yield from with_note + alone if " " in note else alone + with_note


def _likely(said: Explained) -> list[str]:
    call = said.one(Called)
    if call is not None:
        return list(call.names[:2])
    meant = [name for at in said.left for name in alike(said.phrase.word(at), said.phrase.names)]
    context = said.phrase.context
    return (meant or [guess.category for guess in guesses(context, context.now.date(), None, None)])[:2]


def _as_commitment(phrase: Phrase) -> Iterator[str]:
    """A day and other words: appt friday 15:00 dentist."""
    said = explain(phrase, (day_ahead,))
    day = next((piece for piece in said.pieces), None)
    words = _other_words(said)
    if day is not None and words and len(words) < LONGEST_TRIED:
        yield f"appt {phrase.original(day.at, day.end)} {words}"
        yield f"task {words} {phrase.original(day.at, day.end)}"


def _other_words(said: Explained) -> str:
    stretches = [stretch for stretch in said.stretches() if any(said.phrase.word(at).isalnum() for at in range(*stretch))]
    return " ".join(said.phrase.original(at, end) for at, end in stretches)


def _like_examples(phrase: Phrase) -> Iterator[str]:
    examples = list(_filled(EXAMPLES, phrase.context))
    text = " ".join(token.text for token in phrase.tokens)
    for example, _, _ in process.extract(text, examples, scorer=fuzz.ratio, limit=MOST, score_cutoff=LEAST_LIKENESS):
        yield example


def _filled(examples: tuple[str, ...], context: Context) -> Iterator[str]:
    category = context.categories[0].name if context.categories else None
    for example in examples:
        if category is not None or "{category}" not in example:
            yield example.format(category=category)
