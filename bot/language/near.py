"""The understood replies nearest to one that was not.

A reply fails for one of a few reasons, and each has its repair: a verb with a
typing mistake is set right, and one left out is put in; hours with words around them become a log with
these words as its note; a time with a category, or with a word of coming or
going, starts or stops the clock; a day or time with words becomes an
appointment; and what names a link, a calendar or a mark is put in the order in
which these are read. A repair says what the reply said, with its own numbers,
days and words, and has always been read and understood before it is offered.
Where none fits there is nothing to offer, least of all to small talk.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from itertools import islice

from bot.language.hours import Hours
from bot.language.left_out import guesses
from bot.language.meaning import Meaning
from bot.language.moments import Moment
from bot.language.names import alike
from bot.language.near_calendars import as_calendar
from bot.language.near_clock import AT, as_clock
from bot.language.near_orders import VERBS, as_order, tells_a_wage
from bot.language.numbers import digits_at
from bot.language.phrase import Explained, Phrase, explain, phrase_of
from bot.language.planned_said import words_of_title
from bot.language.slots import Amount, Called, amount_said, called, day_back, hours_back, moment_ahead
from bot.language.spent_on import routine_titled
from bot.language.weekday_lists import EVERY
from bot.language.words import ARTICLES, FUNCTION_WORDS, MORE

MOST = 3
LONGEST_TRIED = 24
"""In tokens: a longer text is a story."""
LONGEST_NAME = 2
"""In words, what may be a new category."""
MOST_HOURS = 16
"""A bare number up to this may be hours; and more than this before a colon is likelier a time. Common practice, no source."""
NOT_BEFORE_HOURS = AT | {"in", "start", "started", "out", "stop"}
OF_MONEY = frozenset("€$£¥%")
NO_APPOINTMENT = frozenset(VERBS) - {"appt", "meeting"}
"""What opens an order of another kind, which failed."""
NO_EDGE = FUNCTION_WORDS | {"same", "every"}
NO_NAME = NO_EDGE | MORE | {"early"}


def nearest(phrase: Phrase, read: Callable[[Phrase], Meaning | None]) -> tuple[str, ...]:
    """At most three replies that say what ``phrase`` may say and that ``read`` understands, likest first."""
    if not 0 < len(phrase.tokens) <= LONGEST_TRIED:
        return tuple(as_calendar(phrase)) if phrase.tokens and "://" in phrase.text else ()
    understood = (text for text in dict.fromkeys(_repairs(phrase)) if read(phrase_of(text, phrase.context)) is not None)
    return tuple(islice(understood, MOST))


def _repairs(phrase: Phrase) -> Iterator[str]:
    yield from as_calendar(phrase)
    yield from as_order(phrase)
    yield from _as_routine(phrase)
    yield from _as_hours(phrase)
    yield from as_clock(phrase)
    yield from _as_commitment(phrase)


def _as_routine(phrase: Phrase) -> Iterator[str]:
    """A routine by its title and a day that has been: exercise yesterday -> done exercise yesterday."""
    for at in range(1, len(phrase.tokens)):
        title, day = phrase.original(0, at), day_back(phrase, at)
        if day is not None and day.end == len(phrase.tokens) and routine_titled(title, phrase.context.routines):
            yield f"done {title} {phrase.original(at, day.end)}"


def _as_hours(phrase: Phrase) -> Iterator[str]:
    """The hours in the reply, for the category it names or may mean, with its other words as a note."""
    if phrase.word(0) in VERBS or any(token.text in EVERY for token in phrase.tokens) or tells_a_wage(phrase):
        return
    said = explain(phrase, (hours_back, called, amount_said, day_back))
    quantity = _quantity(said)
    if quantity is None:
        return
    days = [phrase.original(piece.at, piece.end) for piece in said.pieces if isinstance(piece.value, date)]
    note = _other_words(said, quantity)
    if not said.all(Called) and note:
        yield from _of_no_category(phrase, " ".join([*days, quantity, note]), note, quantity)
    for category in _likely(said):
        alone = " ".join([*days, quantity, category])
        yield from [f"{alone} - {note}", alone] if " " in note else [alone, f"{alone} - {note}"] if note else [alone]


def _of_no_category(phrase: Phrase, hours: str, note: str, quantity: str) -> Iterator[str]:
    """Hours for what is no category yet, which then is made, and a task of that length: of what comes first more is likely meant."""
    could_be_named = len(note.split()) <= LONGEST_NAME and all(word.isalpha() and word not in NO_NAME for word in note.lower().split())
    made = [f"category {note}, {hours}"] if could_be_named else []
    task = [f"task {note} {quantity}"] if amount_said(phrase_of(quantity, phrase.context), 0) else []
    yield from [*made, *task] if phrase.text.find(quantity) < phrase.text.find(note.split()[0]) else [*task, *made]


def _quantity(said: Explained) -> str | None:
    """The one length or stretch as it was typed; a bare number beside a category is one of hours: museum 3."""
    hours = [piece for piece in said.pieces if isinstance(piece.value, Amount | Hours)]
    if not hours and said.one(Called) is not None:
        bare = [number for at in said.left if (number := digits_at(said.phrase.tokens, at)) and _may_be_hours(said, at)]
        return f"{bare[0]}h" if len(bare) == 1 and 0 < bare[0] <= MOST_HOURS else None
    if len(hours) != 1:
        return None
    only = hours[0].value
    a_time = isinstance(only, Amount) and said.phrase.word(hours[0].at + 1) == ":" and only.minutes >= 60 * MOST_HOURS // 2
    return None if a_time else said.phrase.original(hours[0].at, hours[0].end)


def _may_be_hours(said: Explained, at: int) -> bool:
    """Whether the bare number at ``at`` counts nothing else: 12 km, €12, 3 pages."""
    before, behind = said.phrase.word(at - 1) if at else "", said.phrase.word(at + 1)
    counts = at + 1 in said.left and behind.isalpha() and behind not in FUNCTION_WORDS
    return before not in NOT_BEFORE_HOURS and not counts and OF_MONEY.isdisjoint({before, behind})


def _likely(said: Explained) -> list[str]:
    call = said.one(Called)
    if call is not None:
        return list(call.names[:2])
    meant = [name for at in said.left for name in (*_planned(said, at), *alike(said.phrase.word(at), said.phrase.names))]
    context = said.phrase.context
    hours = next((each for each in said.all(Hours) if each.start and each.end), None)
    guessed = guesses(context, context.now.date(), hours.start if hours else None, hours.end if hours else None)
    return meant[:2] or ([guessed[0].category] if len(guessed) == 1 else [])


def _planned(said: Explained, at: int) -> list[str]:
    """The category of today's commitment that a leftover word is of the name of: concert 2h30."""
    word = said.phrase.word(at)
    return [block.category for block in said.phrase.context.planned if word not in NO_EDGE and word in words_of_title(block)]


def _as_commitment(phrase: Phrase) -> Iterator[str]:
    """A day or time and other words: appt friday 15:00 dentist; without a time, also as a task."""
    said = explain(phrase, (moment_ahead,))
    words, moment = _other_words(said), said.one(Moment)
    if moment is None or len(said.pieces) > 1 or not words or _is_loose(words) or phrase.tokens[-1].text == "?":
        return
    when = phrase.original(said.pieces[0].at, said.pieces[0].end).lstrip(", ")
    if moment.start is not None and phrase.word(0) not in NO_APPOINTMENT:
        yield f"appt {when} {words}"
    if moment.day is not None and moment.day_said and phrase.word(0) not in VERBS:
        likelier = (f"task {words} {when}", f"appt {when} {words}")
        yield from likelier if moment.start is None else reversed(likelier)


def _is_loose(words: str) -> bool:
    """Whether the words begin or end in the middle of a sentence, and so are no title."""
    first, last = words.lower().split()[0], words.lower().split()[-1]
    return (first in NO_EDGE and first not in ARTICLES) or last in NO_EDGE


def _other_words(said: Explained, without: str = "") -> str:
    stretches = [stretch for stretch in said.stretches() if any(said.phrase.word(at).isalnum() for at in range(*stretch))]
    words = (said.phrase.original(at, end).strip(", ") for at, end in stretches)
    return " ".join(each for each in words if f"{each.strip('- ')}h" != without)
