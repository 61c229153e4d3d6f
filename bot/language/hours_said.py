"""Hours that were spent.

log     := [opening] {hours | amount | day | category | break | tasks | clock} [note] [closer]
opening := ["i" | "we"] ["have" | "just" | …] ["spent" | "worked" | "did" | …]

In any order, each at most once; only hours may come twice, which makes two
stints: workshop 9-12 and 13-17; and days, each of which has its own (``day_lists``). A word that none of these explains makes it
no log at all, for ordinary talk is full of hours: "the train home takes 2h".
A category left out is that of the task or routine that is named instead
(``spent_on``), the one whose clock runs or the one planned then, and ``why``
says so; where that is not sure, every category is a choice of ``Ask``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from itertools import product
from typing import TypeAlias

from bot.language.context import Context
from bot.language.day_lists import Days, Each, days_back, days_told, each_said, names_days, spent_on
from bot.language.hours import Hours
from bot.language.left_out import Guess, guesses
from bot.language.meaning import Ask, Log, SaidStint
from bot.language.names import alike
from bot.language.notes import notes
from bot.language.phrase import Explained, Phrase, Piece, explain
from bot.language.slots import (
    Amount,
    Break,
    Called,
    Clock,
    Tasks,
    called,
    clock_said,
    day_back,
    tasks_said,
    told,
)
from bot.language.spent import DAY, Spent, all_spent
from bot.language.spent_on import Purpose, purpose_of, routine_titled
from bot.language.tokens import Token
from bot.language.words import ARTICLES, AT_A_CATEGORY, BETWEEN_SPEAKER_AND_VERB, CLOSERS, MORE, SPEAKERS, SPENT

READERS = (told, called, tasks_said, clock_said)
READERS_OF_DAYS = (days_back, each_said, *READERS)
READERS_OF_DAYS_SPENT = (days_told, each_said, *READERS)
MOST_CHOICES = 6
MAKES_A_TASK = ("add ", "book ")
Telling: TypeAlias = Callable[[Explained, str | None], Log | Ask | None]


@dataclass(frozen=True, slots=True)
class What:
    """What hours were spent on: numbers of tasks, a note. ``names_it``: something is named that has a category of its own."""

    tasks: tuple[int, ...]
    note: str | None
    names_it: bool


def read_log(phrase: Phrase) -> Log | Ask | None:
    """The hours that ``phrase`` tells of, or None when it tells of anything else as well."""
    dashed = _with_a_dash(phrase)
    if dashed is not None:
        found = read_log(dashed)
        return found if found is not None and _says_category(found) else None
    core = without_opening(phrase)
    readers = (READERS_OF_DAYS if core is phrase else READERS_OF_DAYS_SPENT) if core and names_days(core) else READERS
    said = _with_clocks(explain(core, readers)) if core else None
    quantity = next((piece.end for piece in said.pieces if isinstance(piece.value, Amount | Hours)), None) if said else None
    if core is None or said is None or quantity is None:
        return None
    return _told(said, None) or _read_with_note(core, quantity) or _read_with_purpose(core, said, quantity)


def _with_a_dash(phrase: Phrase) -> Phrase | None:
    """Two times of three or four figures side by side are hours from one to the other: school 730 1315."""
    numbers = [at for at, token in enumerate(phrase.tokens) if token.kind == "number"]
    if len(numbers) != 2 or numbers[1] != numbers[0] + 1 or not all(len(phrase.word(at)) in (3, 4) for at in numbers):
        return None
    here = phrase.tokens[numbers[1]]
    dash = Token("-", "mark", here.start, here.start, False)
    return replace(phrase, tokens=(*phrase.tokens[: numbers[1]], dash, *phrase.tokens[numbers[1] :]))


def without_opening(phrase: Phrase) -> Phrase | None:
    """Without "I have just spent", also behind a day: yesterday I spent … None for a speaker of whom something else is told: I work."""
    day = day_back(phrase, 0)
    start = _after_comma(phrase, day.end) if day else 0
    verb = start
    if phrase.word(verb) in SPEAKERS:
        verb += 1
        while phrase.word(verb) in BETWEEN_SPEAKER_AND_VERB:
            verb += 1
        if phrase.word(verb) not in SPENT and phrase.word(verb - 1) not in ("was", "were"):
            return None
    if phrase.word(verb) in SPENT:
        verb += 2 if phrase.word(verb) == "put" and phrase.word(verb + 1) == "in" else 1
    return phrase if verb == start else replace(phrase, tokens=phrase.tokens[:start] + phrase.tokens[verb:])


def _after_comma(phrase: Phrase, at: int) -> int:
    return at + 1 if phrase.word(at) == "," else at


def _read_with_purpose(phrase: Phrase, said: Explained, quantity: int) -> Log | Ask | None:
    """The words that nothing else explains name a task or a routine, perhaps before a note.

    But hours from one time to another plan it, and "add" makes a task.
    """
    if (said.all(Hours) and not said.all(Called)) or phrase.text.lower().lstrip().startswith(MAKES_A_TASK):
        return None
    return _told_for(said, None) or _read_with_note(phrase, quantity, told_by=_told_for)


def _told_for(said: Explained, note: str | None) -> Log | Ask | None:
    left = [at for at in said.left if not _means_nothing(said, at) and said.phrase.word(at) != "done"]
    purpose = purpose_of(said.phrase, left)
    if purpose is None or said.all(Tasks) or (purpose.title and note):
        return None
    return _told(replace(said, left=tuple(at for at in said.left if at not in left and said.phrase.word(at) != "done")), note, purpose)


def _read_with_note(phrase: Phrase, quantity: int, told_by: Telling | None = None) -> Log | Ask | None:
    """A note can only begin behind the quantity, which ends at ``quantity``."""
    for noted in notes(phrase, quantity):
        found = (told_by or _told)(_with_clocks(explain(noted.phrase, READERS)), noted.note)
        if found is not None and (noted.sure or _says_category(found)):
            return found
    return None


def _says_category(found: Log | Ask) -> bool:
    return isinstance(found, Log) and all(stint.why is None for stint in found.stints)


def _told(said: Explained, note: str | None, purpose: Purpose | None = None) -> Log | Ask | None:
    if said.twice(Amount, date, Break, Tasks, Clock, Days, Each):
        return None
    categories = _categories(said)
    if categories is None or not _is_sure(said, categories, named=purpose is not None):
        return None
    days, what = said.one(Days), _what(said, note, purpose)
    if days is None:
        spent = all_spent(said, said.one(date) or said.phrase.day) if said.one(Each) is None else []
        return _settled(said.phrase, spent, categories, what) if spent else None
    return _told_of_days(said, days, categories, what) if said.one(date) is None else None


def _what(said: Explained, note: str | None, purpose: Purpose | None) -> What:
    """What the hours were spent on, by numbers, by words or by the note."""
    tasks = said.one(Tasks)
    if purpose is not None:
        return What((purpose.task,) if purpose.task else (), purpose.title or note or None, names_it=True)
    by_note = routine_titled(note, said.phrase.context.routines) is not None
    return What(tasks.numbers if tasks else (), note or None, names_it=tasks is not None or by_note)


def _told_of_days(said: Explained, days: Days, categories: tuple[str, ...], what: What) -> Log | Ask | None:
    """The hours on each of the days; every way in which a length may be meant of them is a choice."""
    ways = spent_on(said, days) if len(categories) == 1 else []
    told = [way for spent in ways if (way := _settled(said.phrase, spent, categories, what)) is not None]
    choices = tuple(choice for way in told for choice in (way.choices if isinstance(way, Ask) else (way,)) if isinstance(choice, Log))
    if days.apart and any(_is_to_come(stint, said.phrase.context.now) for choice in choices for stint in choice.stints):
        return None
    return None if not choices else told[0] if len(choices) == 1 else Ask(choices[:MOST_CHOICES])


def _is_to_come(stint: SaidStint, now: datetime) -> bool:
    """Whether hours of today are not over: then days that nothing joins are likelier those of every week."""
    over = stint.end is None or (stint.start is not None and stint.start < stint.end <= now.time())
    return stint.day == now.date() and not over


def _is_sure(said: Explained, categories: tuple[str, ...], *, named: bool) -> bool:
    """Without a category only a bare amount or bare hours are a log, or an amount beside the name of a task or routine;
    and a day or more needs its category right beside it.
    """
    amount = said.one(Amount)
    long = amount is not None and amount.minutes >= DAY
    if not categories:
        return not long and (named or not said.phrase.piece) and MORE.isdisjoint(token.text for token in said.phrase.tokens)
    return not long or any(
        isinstance(piece.value, Called) and said.phrase.word(piece.at) in said.phrase.names.starts for piece in said.pieces
    )


def _with_clocks(said: Explained) -> Explained:
    """An amount with a colon right before another amount is the time it began: workshop 9:00 2h."""
    if not said.twice(Amount):
        return said
    return replace(said, pieces=tuple(_clock_before_amount(said, place) for place in range(len(said.pieces))))


def _clock_before_amount(said: Explained, place: int) -> Piece:
    piece, behind = said.pieces[place], said.pieces[place + 1 : place + 2]
    adjoins = bool(behind) and behind[0].at == piece.end and isinstance(behind[0].value, Amount)
    if not adjoins or not isinstance(piece.value, Amount) or said.phrase.word(piece.at + 1) != ":" or piece.value.minutes >= DAY:
        return piece
    return replace(piece, value=Clock(time(piece.value.minutes // 60, piece.value.minutes % 60)))


def _categories(said: Explained) -> tuple[str, ...] | None:
    """The categories it may be, none when none was said, or None when leftover words are about something else."""
    called_so = said.all(Called)
    left = [at for at in said.left if not _means_nothing(said, at)]
    if called_so:
        return None if left or _stands_between(said) else _common(called_so)
    if not left:
        return _shared(said)
    return _mistyped(said.phrase, left)


def _shared(said: Explained) -> tuple[str, ...]:
    """The category of the hours just before on the line, where a piece says only when: workshop 9-12, 13-17."""
    before = said.phrase.before.stints[-1] if isinstance(said.phrase.before, Log) else None
    tells_when = said.one(date) is not None or any(hours.start and hours.end for hours in said.all(Hours))
    return (before.category,) if before is not None and before.category and tells_when else ()


def _stands_between(said: Explained) -> bool:
    """Whether a category stands between stretches and so is not that of all; the splitting finds whose: 13-17, museum 18-20."""
    stretches = [piece.at for piece in said.pieces if isinstance(piece.value, Hours)]
    return any(stretches[0] < piece.at < stretches[-1] for piece in said.pieces if isinstance(piece.value, Called) and stretches)


def _common(called_so: list[Called]) -> tuple[str, ...]:
    """What all the calls agree on: "bike workshop" is one category; failing that, each of them may be meant."""
    agreed = [name for name in called_so[0].names if all(name in other.names for other in called_so)]
    return tuple(agreed or dict.fromkeys(name for call in called_so for name in call.names))


def _mistyped(phrase: Phrase, left: list[int]) -> tuple[str, ...] | None:
    """A single strange word, perhaps after "at the", that is like a category's name."""
    strange = left[-1]
    before = [phrase.word(at) for at in left[:-1]]
    if left != list(range(left[0], strange + 1)) or any(word not in AT_A_CATEGORY | ARTICLES for word in before):
        return None
    return alike(phrase.word(strange), phrase.names) or None


def _means_nothing(said: Explained, at: int) -> bool:
    """Whether a leftover word may be passed over: a comma, an "and" or "was" before a stretch, a closing word."""
    word = said.phrase.word(at)
    if word in (",", "-", ":", ";") or (at == 0 and word in ("*", "•")):
        return True
    if word == "done":
        return said.one(Called) is not None
    if word == "in":
        return said.phrase.word(at + 1) == "total"
    if word in ("and", "&", "+"):
        return _starts_at(said, at + 1, (Hours, Break))
    if word in ("was", "were"):
        return any(piece.at == at + 1 and isinstance(piece.value, Hours) and piece.value.start and piece.value.end for piece in said.pieces)
    return word in CLOSERS and all(said.phrase.word(i) in CLOSERS for i in range(at, len(said.phrase.tokens)))


def _starts_at(said: Explained, at: int, kinds: tuple[type, ...]) -> bool:
    return any(piece.at == at and isinstance(piece.value, kinds) for piece in said.pieces)


def _settled(phrase: Phrase, spent: list[tuple[Spent, ...]], categories: tuple[str, ...], what: What) -> Log | Ask | None:
    """One log where everything is sure, else the choices."""
    choices = []
    for stretches in product(*spent):
        found = _likely(phrase.context, stretches[0], categories, what)
        choices += [Log(tuple(_stint(one, guess, what) for one in stretches)) for guess in found]
    if not choices:
        return None
    return choices[0] if len(choices) == 1 else Ask(tuple(choices[:MOST_CHOICES]))


def _likely(context: Context, first: Spent, categories: tuple[str, ...], what: What) -> tuple[Guess | None, ...]:
    """The categories that were said; none where what was named has its own; else those that are likely."""
    if categories:
        return tuple(Guess(name) for name in categories)
    return (None,) if what.names_it else guesses(context, first.day, first.start, first.end)


def _stint(spent: Spent, guess: Guess | None, what: What) -> SaidStint:
    planned = guess.planned if guess else None
    return SaidStint(
        guess.category if guess else None,
        spent.day,
        spent.minutes,
        spent.start,
        spent.end,
        spent.break_minutes,
        what.tasks,
        what.note or (planned.title if planned and planned.routine else None),
        guess.why if guess else None,
        task_ids=(planned.task_id,) if planned and planned.task_id else (),
    )
