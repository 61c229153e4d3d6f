"""Orders that are near to a reply that was not understood: a verb mistyped or left out, a unit or a word forgotten."""

from __future__ import annotations

from collections.abc import Iterator

from bot.language.names import leaves_out, mistyped
from bot.language.pay_words import Money, money_said
from bot.language.phrase import Explained, Phrase, Piece, explain
from bot.language.picks import fits_a_task, read_numbers
from bot.language.slots import Called, called, day_ahead
from bot.language.targets_said import Bounds, bounds_said
from bot.language.tokens import is_number

VERBS = tuple(
    """
    done close drop reopen push later task todo goal appt meeting move cancel routine target start stop clock undo week month today tomorrow
    hours goals timesheet settings help quiet morning evening waking category plan accept swap calendar calendars mark pause resume remove
    overtime payday rounding workweek currency employer
    """.split()
)
OF_A_JOB = frozenset({"timesheet", "rate", "payday", "overtime", "rounding", "workweek", "currency", "employer"})
AN_HOUR = frozenset({"hour", "hourly"})
OF_PAY = frozenset("i get earn make they pay pays me for at in the my is".split())
SHORTEST = 3
BEFORE_MINUTES = frozenset({"in", "took", "for"})
TOWARDS = frozenset({"to", "-", ">", "on", "for"})


def as_order(phrase: Phrase) -> Iterator[str]:
    """The orders that it may be, with what it says behind the verb."""
    yield from _with_verb_set_right(phrase)
    yield from _with_minutes(phrase)
    yield from _as_push(phrase)
    yield from _as_target(phrase)
    yield from _as_rate(phrase)
    yield from _of_a_job(phrase)


def _with_verb_set_right(phrase: Phrase) -> Iterator[str]:
    """psuh 2 -> push 2; udo -> undo."""
    first = phrase.word(0)
    for verb in VERBS:
        short = len(first) >= SHORTEST and len(first) + 1 == len(verb) and first[0] == verb[0] and leaves_out(first, verb)
        if first != verb and (short or mistyped(first, verb) is not None):
            yield f"{verb} {phrase.original(1, len(phrase.tokens))}".strip()


def _with_minutes(phrase: Phrase) -> Iterator[str]:
    """done 1 in 20 -> done 1 in 20m."""
    last = len(phrase.tokens) - 1
    if is_number(phrase.tokens, last) and phrase.word(last - 1) in BEFORE_MINUTES and phrase.word(0) in VERBS:
        yield f"{phrase.original(0, last + 1)}m"


def _as_push(phrase: Phrase) -> Iterator[str]:
    """2 fri -> push 2 to fri; words that fit an open task likewise."""
    for at in range(1, len(phrase.tokens)):
        day = day_ahead(phrase, at)
        if day is None or day.end < len(phrase.tokens):
            continue
        end = at
        while end > 1 and phrase.word(end - 1) in TOWARDS:
            end -= 1
        pick = read_numbers(phrase, 0)
        numbers = pick is not None and pick.end == end and not pick.value.all
        if numbers or fits_a_task([token.text for token in phrase.tokens[:end]], phrase):
            yield f"push {phrase.original(0, end)} to {phrase.original(at + (phrase.word(at) == 'on'), day.end)}"
        return


def _as_target(phrase: Phrase) -> Iterator[str]:
    """max 20h museum -> target museum max 20h."""
    said = explain(phrase, (bounds_said, called))
    call, bounds = said.one(Called), said.one(Bounds)
    if call is None or bounds is None or not bounds.worded or said.left:
        return
    yield f"target {call.names[0]} {_as_typed(said)}"


def _as_typed(said: Explained) -> str:
    return next(said.phrase.original(piece.at, piece.end) for piece in said.pieces if isinstance(piece.value, Bounds))


def _as_rate(phrase: Phrase) -> Iterator[str]:
    """museum 28 euros an hour -> rate museum 28 euros an hour; I get 25 an hour for museum likewise."""
    said = explain(phrase, (money_said, called))
    call, wage = said.one(Called), _wage(said)
    if call is not None and wage is not None and all(phrase.word(at) in OF_PAY for at in said.left):
        yield f"rate {call.names[0]} {phrase.original(wage.at, wage.end)}"


def tells_a_wage(phrase: Phrase) -> bool:
    """Whether money is named, and so no hours: 12 euros, 14.20 an hour."""
    return _wage(explain(phrase, (money_said,))) is not None


def _wage(said: Explained) -> Piece | None:
    for piece in said.pieces:
        if isinstance(piece.value, Money) and (piece.value.currency is not None or said.phrase.word(piece.end - 1) in AN_HOUR):
            return piece
    return None


def _of_a_job(phrase: Phrase) -> Iterator[str]:
    """timesheet gallery -> timesheet museum: a rule or a sheet of a job that there is none of is asked of those there are."""
    if phrase.word(0) in OF_A_JOB and len(phrase.tokens) > 1 and explain(phrase, (called,)).one(Called) is None:
        rest = phrase.original(2, len(phrase.tokens))
        yield from (f"{phrase.word(0)} {each.name} {rest}".strip() for each in phrase.context.categories if each.is_job)
