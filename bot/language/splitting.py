"""Several things in one message.

lines   := stretch {(end of line | ";") stretch}
stretch := clause | clause {joint clause} | clause {joint (clause | when)} | plain {plain}, the first of these that reads

Line ends and semicolons always part. A comma, "and" or "then" parts only where
every piece can stand alone, the first as well as the last; so "2h kids and 1h
garden" is two stints, while "two hours and ten minutes workshop" is one, and
"task buy bread and milk" is one task. The shortest pieces that stand are taken.

A day said once holds for the rest of its line, a category that is made is known to all behind it, and a piece that says only when
is about what the piece before it was about: "workshop 9-12, 13-17", "museum
shift tue 13-17 and thu 12-18". Where a line is nothing as a whole, its hours and
orders may also stand side by side: "3h workshop 2h museum", "done 1 push 2".
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import reduce
from itertools import islice, pairwise, product
from typing import TypeAlias

from bot.language.amounts import read_amount
from bot.language.day_lists import shares
from bot.language.meaning import AddCommitment, Ask, Close, Drop, Log, Meaning, Push, SaidStint, Several
from bot.language.named_weeks import NamedWeek, named_week, spread
from bot.language.new_categories import knowing
from bot.language.numbers import begins_quantity
from bot.language.phrase import Phrase
from bot.language.relative_days import DAY_WORDS
from bot.language.tasks_said import CLOSE, DROP, PUSH
from bot.language.unsettled_hours import read_unsettled_hours
from bot.language.weekdays import WEEKDAYS, nearest
from bot.language.words import SPENT

ClauseReader: TypeAlias = Callable[[Phrase], Meaning | None]

LINK = re.compile(r"(?:https?|webcals?)://\S+", re.IGNORECASE)
PARTS_SOFTLY = frozenset({",", "and", "then", "plus", "&", "+", "also"})
ORDERS = frozenset(word for opening in (CLOSE, DROP, PUSH) for word in opening.calls)
BEGINNINGS = frozenset(WEEKDAYS) | DAY_WORDS | ORDERS
"""What may begin a thing that nothing parts from the one before it, besides quantities and categories."""
MOST_PARTINGS = 12
SHARES = (Log, AddCommitment)
"""Kinds of which a piece that says only when may share the rest."""
MOST_CHOICES = 6
LONGEST_BEFORE_AND = 3
LONGEST_TIME = 8
"""In tokens: half past nine in the morning."""


def read_lines(phrase: Phrase, read: ClauseReader) -> Meaning | None:
    """All that ``phrase`` says, or None when any part of it is not understood."""
    if ";" not in phrase.text and "\n" not in phrase.text:
        return _read_stretch(phrase, read)
    parts: list[Meaning] = []
    is_semicolon = _semicolons(phrase.text)
    for line in _parted(phrase, _begins_line):
        day = None
        for stretch in _parted(line, is_semicolon):
            known = reduce(knowing, parts, replace(stretch, day=day) if day else stretch)
            meaning = _read_stretch(known, read)
            if meaning is None:
                return None
            parts.append(meaning)
            day = _day_said(meaning, day)
    return joined(parts) if parts else None


def _parted(phrase: Phrase, parts: Callable[[Phrase, int], bool]) -> list[Phrase]:
    """The stretches between the tokens that part them, empty ones left out. A semicolon belongs to neither side."""
    places = [at for at in range(len(phrase.tokens)) if parts(phrase, at)]
    bounds = [0, *places, len(phrase.tokens)]
    stretches = [phrase.part(start + (phrase.word(start) == ";"), end) for start, end in pairwise(bounds)]
    return [stretch for stretch in stretches if stretch.tokens]


def _begins_line(phrase: Phrase, at: int) -> bool:
    return at > 0 and "\n" in phrase.text[phrase.tokens[at - 1].end : phrase.tokens[at].start]


def _semicolons(text: str) -> Callable[[Phrase, int], bool]:
    """Tells whether a semicolon of ``text`` parts at a token; one within a link is the link's. The links are looked for once."""
    within = {place for link in LINK.finditer(text) for place in range(link.start(), link.end() - 1)}
    return lambda phrase, at: phrase.word(at) == ";" and phrase.tokens[at].start not in within


def _read_stretch(line: Phrase, read: ClauseReader) -> Meaning | None:
    week = named_week(line)
    return (_read_week(week, read) if week else None) or _read_in_any_week(line, read)


def _read_week(week: NamedWeek, read: ClauseReader) -> Meaning | None:
    """What the days of a named week have, hours or commitments; None where the line says anything else.

    On the last day of a week "this week" may be the one that begins: then both are choices, unless told as spent.
    """
    now = week.line.context.now.date()
    meaning = _read_days(week, read)
    is_over = isinstance(meaning, Log) and all(stint.day < now for stint in meaning.stints) and week.line.word(0) not in SPENT
    if is_over and week.word == "this" and nearest(week.line.context.week_starts, now, "forward") - now == timedelta(days=1):
        planned = _read_days(replace(week, word="next"), read)
        return Ask((planned, meaning)) if planned is not None and meaning is not None else meaning
    return meaning


def _read_days(week: NamedWeek, read: ClauseReader) -> Meaning | None:
    now = week.line.context.now
    found = [_planned_sooner(_read_in_any_week(each, read), now) for each in spread(week)]
    parts = [each for each in found if each is not None]
    meaning = joined(parts) if len(parts) == len(found) else None
    inside = meaning.parts if isinstance(meaning, Several) else (meaning,)
    if isinstance(meaning, Log) and len(week.groups) == 1 and meaning.stints[0].start is None and len(meaning.stints) > 1:
        return Ask((meaning, _together(meaning)))
    return meaning if all(isinstance(part, SHARES) for part in inside) else None


def _together(log: Log) -> Log:
    """A length that was that of all days together."""
    parts = shares(log.stints[0].minutes, len(log.stints))
    return Log(tuple(replace(stint, minutes=minutes) for stint, minutes in zip(log.stints, parts, strict=True)))


def _planned_sooner(meaning: Meaning | None, now: datetime) -> Meaning | None:
    """Of what may be planned or told, the likelier; hours that are not over are planned: the line is about a week."""
    meaning = meaning.choices[0] if isinstance(meaning, Ask) else meaning
    return joined([_planned_if_to_come(stint, now) for stint in meaning.stints]) if isinstance(meaning, Log) else meaning


def _planned_if_to_come(stint: SaidStint, now: datetime) -> Meaning:
    if stint.start is None or stint.end is None or stint.category is None:
        return Log((stint,))
    if stint.day < now.date() or (stint.day == now.date() and stint.start < stint.end <= now.time()):
        return Log((stint,))
    return AddCommitment(stint.category, stint.day, stint.start, stint.end, stint.category)


def _read_in_any_week(line: Phrase, read: ClauseReader) -> Meaning | None:
    partings = [at for at, token in enumerate(line.tokens[1:-1], 1) if token.text in PARTS_SOFTLY and not _joins(line, at)]
    if not partings or len(partings) > MOST_PARTINGS:
        return read(line) or _read_side_by_side(line, read)
    whole = read(line) if any(_is_in_amount(line, at) for at in partings) else None
    if isinstance(whole, Log):
        return whole
    parted = _read_pieces(line, partings, lambda piece: read(replace(piece, before=None)))
    return parted or whole or read(line) or _read_sharing(line, partings, read) or _read_side_by_side(line, read)


def _read_sharing(line: Phrase, partings: list[int], read: ClauseReader) -> Meaning | None:
    """The line as several things of which one that says only when shares the rest with the one before it."""
    tells_when = any(begins_quantity(line.tokens, at + 1) or line.word(at + 1) in BEGINNINGS for at in partings)
    figures = sum(token.kind == "number" for token in line.tokens)
    return _read_pieces(line, partings, read) if tells_when and figures > 1 else None


def _read_pieces(line: Phrase, partings: list[int], read: ClauseReader) -> Meaning | None:
    """The line as several things, parted at some of the places."""
    pieces = _split(replace(line, piece=True), 0, partings, read, set())
    return joined(pieces) if pieces is not None and len(pieces) > 1 else None


def _read_side_by_side(line: Phrase, read: ClauseReader) -> Meaning | None:
    """Things that nothing parts, tried where a quantity, a category, a day or an order begins; each must be plain by itself."""
    if sum(token.text in line.names.starts or token.text in ORDERS for token in line.tokens) < 2:
        return None
    places = [at for at in range(1, len(line.tokens) - 1) if line.word(at) in PARTS_SOFTLY or _may_begin(line, at)]
    if not places or len(places) > MOST_PARTINGS:
        return None
    return _read_pieces(line, places, lambda piece: _if_plain(read(replace(piece, before=None))) if _may_be_plain(piece) else None)


def _may_begin(line: Phrase, at: int) -> bool:
    return not line.tokens[at].glued and (
        begins_quantity(line.tokens, at) or line.word(at) in line.names.starts or line.word(at) in BEGINNINGS
    )


def _may_be_plain(piece: Phrase) -> bool:
    """A glance at a piece: an order opens it, or there are a category and a quantity in it."""
    at = range(len(piece.tokens))
    named = any(token.text in piece.names.starts for token in piece.tokens)
    return piece.word(0) in ORDERS or (named and any(begins_quantity(piece.tokens, place) for place in at))


def _if_plain(meaning: Meaning | None) -> Meaning | None:
    """One stretch with all that it needs and nothing that was guessed, or an order about numbers; words could swallow what follows."""
    if isinstance(meaning, Log):
        only = meaning.stints[0]
        return meaning if len(meaning.stints) == 1 and only.why is None and only.note is None else None
    plain = isinstance(meaning, Close | Drop | Push) and (meaning.tasks.numbers or meaning.tasks.all)
    return meaning if plain else None


def _is_in_amount(line: Phrase, at: int) -> bool:
    """Whether an amount may go over it: two hours and ten minutes. Then one log is likelier than two things."""
    starts = range(max(at - LONGEST_BEFORE_AND, 0), at)
    return any(found is not None and found.end > at for found in (read_amount(line.tokens, start) for start in starts))


def _joins(line: Phrase, at: int) -> bool:
    """Whether it stands between the names of two days, or between two times: every tue and thu; between 9 and 11."""
    if line.word(at - 1) in WEEKDAYS and line.word(at + 1) in WEEKDAYS:
        return True
    opened = next((start for start in range(at - 1, max(at - LONGEST_TIME, 0) - 1, -1) if line.word(start) == "between"), None)
    hours = read_unsettled_hours(line.tokens, opened) if opened is not None else None
    return hours is not None and hours.end > at


def _split(line: Phrase, start: int, partings: list[int], read: ClauseReader, hopeless: set[int]) -> list[Meaning] | None:
    """The meanings of the shortest pieces from ``start`` on that all stand alone; None when there are none."""
    if start in hopeless:
        return None
    for end in (*(at for at in partings if at > start), len(line.tokens)):
        piece = line.part(start, end)
        first = read(piece) if _may_stand_alone(piece) or isinstance(piece.before, SHARES) else None
        if first is None:
            continue
        if end == len(line.tokens):
            return [first]
        following = replace(knowing(line, first), day=_day_said(first, line.day), before=_shared(first))
        rest = _split(following, _after(line, end), partings, read, hopeless)
        if rest is not None:
            return [_made_sure(first, rest[0]), *rest]
    hopeless.add(start)
    return None


def _may_stand_alone(piece: Phrase) -> bool:
    """Whether it pays to read a piece: with nothing but numbers and units it cannot say all that it must."""
    return any(token.kind == "word" and len(token.text) > 1 for token in piece.tokens)


def _shared(meaning: Meaning) -> Meaning:
    """What a piece behind it may share: of a shift that may be planned or told, the planned one."""
    likeliest = meaning.choices[0] if isinstance(meaning, Ask) else meaning
    return likeliest if isinstance(likeliest, AddCommitment) else meaning


def _made_sure(meaning: Meaning, following: Meaning) -> Meaning:
    """Of a shift that may be planned or told, the planned one, where one more time of the same follows."""
    shared = _shared(meaning)
    same = isinstance(shared, AddCommitment) and isinstance(following, AddCommitment) and shared.title == following.title
    return shared if same else meaning


def _after(line: Phrase, at: int) -> int:
    while line.word(at) in PARTS_SOFTLY:
        at += 1
    return at


def _day_said(meaning: Meaning, before: date | None) -> date | None:
    """The day that holds for what follows."""
    log = meaning.choices[0] if isinstance(meaning, Ask) else meaning
    return log.stints[-1].day if isinstance(log, Log) else before


def joined(parts: list[Meaning]) -> Meaning:
    """One meaning for all the parts: hours make one log, other kinds are several; what is open in one is open in all."""
    options = [part.choices if isinstance(part, Ask) else (part,) for part in parts]
    choices = tuple(_merged(chosen) for chosen in islice(product(*options), MOST_CHOICES))
    return choices[0] if len(choices) == 1 else Ask(choices)


def _merged(parts: tuple[Meaning, ...]) -> Meaning:
    merged: list[Meaning] = []
    for part in parts:
        before = merged[-1] if merged else None
        if isinstance(part, Log) and isinstance(before, Log):
            merged[-1] = Log(_all_stints(before, part))
        elif isinstance(part, Several):
            merged.extend(part.parts)
        else:
            merged.append(part)
    return merged[0] if len(merged) == 1 else Several(tuple(merged))


def _all_stints(*logs: Log) -> tuple[SaidStint, ...]:
    return tuple(stint for log in logs for stint in log.stints)
