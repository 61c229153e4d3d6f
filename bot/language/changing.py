"""The latest log corrected, anything taken back.

amend  := ("no" | "make it" | "it was" | "should be" | …) {amount | hours | an end | by | day | break | category} | break
        | by {category | day} | category day "less" break | (category | title) ("was only" | "took" | …) (amount | hours)
        | ("correct" | …) {category | day} (amount | hours | …)
undo   := "undo" | "oops" | … | "redo" | "undo the undo" | …
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time

from bot.language.ends_said import MORE_OR_LESS, By, EndsAt, StartsAt, by_said, end_said
from bot.language.hours import Hours
from bot.language.meaning import Amend, Ask, Undo
from bot.language.names import alike
from bot.language.phrase import Explained, Phrase, explain, opened_by
from bot.language.slots import Amount, Break, Called, amount_said, break_said, called, day_back, hours_back
from bot.language.spent_on import purpose_of
from bot.language.tokens import is_glued
from bot.language.words import ARTICLES, AT_A_CATEGORY, CLOSERS

AMEND = opened_by(
    "not | it was not | it wasn't | no | no i meant | no it was | no make it | no make that | nope | make it | make that | make | it was | "
    "that was | should be | it should be | that should be | should have been | i meant | i mean | meant | actually | correction | "
    "change it to | change that to | change to | rather | sorry | not that | set it to | no that was | no sorry | no wait | wrong | *"
)
REDO = opened_by("redo | redo that | redo it | undo the undo | undo undo | undo that undo | bring it back | bring that back | put it back")
UNDO = opened_by(
    "undo | undo that | undo it | undo last | undo the last one | oops | ooops | whoops | take that back | take it back | revert | "
    "/ undo | never mind that | scratch that | delete that | remove that | delete last | remove last | "
    "delete the last one | remove the last one | undo please | go back | delete last entry | delete the last entry | remove last entry | "
    "remove the last entry | delete last log | remove last log | cancel that | cancel it | cancel last | delete it | remove it"
)
AMEND_READERS = (hours_back, end_said, called, amount_said, day_back, break_said, by_said)
WAS_ONLY = opened_by("was only | was just | took only | took just | took | only took | just took | lasted | only lasted | lasted only")
CORRECT = opened_by("correct | fix | adjust | correct the | correct my | fix the | fix my | correct hours | fix hours")
BREAK_HAD = opened_by("had | had a | i had | i had a | i took | i took a | took a | we had a | there was a | a")
KINDS = (Amount, Hours, StartsAt, EndsAt, By, date, Break, Called)
BESIDE = AT_A_CATEGORY | ARTICLES | {",", ".", "!", "-", ":", "was", "were"}
NAMING = ARTICLES | AT_A_CATEGORY | {",", ":", "'", "s", "hours", "shift", "was", "were"}
"""What may stand beside the category and the day that name hours to be set right."""
DAY_MINUTES = 24 * 60
LEAST_HOUR = 13


def read_amend(phrase: Phrase) -> Amend | Ask | None:
    """What to change in the latest log. "no, museum" changes it; "no museum today" is talk."""
    start = AMEND(phrase)
    if not start:
        return None
    if phrase.word(0) == "*" and not is_glued(phrase.tokens, 1):
        return None  # An item of a list, where *3h corrects.
    if phrase.word(0) == "not":
        start = _after_what_it_is_not(phrase)
    opened = start
    again = start + 1 if phrase.word(start) == "," else start
    start = again + AMEND(phrase, again) if phrase.word(0) != "not" and AMEND(phrase, again) else start
    said = explain(phrase.part(start, _before_closers(phrase)), AMEND_READERS)
    amount, categories = said.one(Amount), _categories(said)
    if categories is None or not (said.pieces or categories) or said.twice(*KINDS) or (bool(said.all(By)) and bool(said.all(Amount))):
        return None
    bare_no = opened == start == 1 and phrase.word(0) == "no" and phrase.word(1) != ","
    told = said.one(date) is not None and any(hours.start and hours.end for hours in said.all(Hours))
    if (categories and bare_no and not told) or (amount and amount.minutes >= DAY_MINUTES):
        return None
    choices = tuple(_amend(said, category) for category in categories or (None,))
    return choices[0] if len(choices) == 1 else Ask(choices)


def read_longer(phrase: Phrase) -> Amend | None:
    """How much longer or shorter hours were, perhaps those of a category or a day: 20 min longer, museum fri 20 min less, museum -1h."""
    if phrase.piece or (MORE_OR_LESS.keys().isdisjoint(token.text for token in phrase.tokens) and "-" not in phrase.text):
        return None
    said = explain(phrase.part(0, _before_closers(phrase)), (by_said, called, day_back, break_said))
    by, named = said.one(By), _whose(said)
    if by is None:
        return _less_a_break(said, named)
    if said.all(Break) or named is None or len(said.all(By)) > 1:
        return None
    alone = not any(named)
    if alone and (phrase.context.clocked_in is not None or "more" in (token.text for token in phrase.tokens)):
        return None  # Of a clock that runs nobody knows yet, and "10 minutes more" is said of much.
    return Amend(by=by.minutes, of_category=named[0], of_day=named[1])


def _less_a_break(said: Explained, named: tuple[str | None, date | None] | None) -> Amend | None:
    """A break within the hours of a category and a day: theatre 24 oct less 30m."""
    pause = said.one(Break)
    if pause is None or not pause.minutes or named is None or None in named or "less" not in [token.text for token in said.phrase.tokens]:
        return None
    return Amend(break_minutes=pause.minutes, of_category=named[0], of_day=named[1])


def read_was_only(phrase: Phrase) -> Amend | None:
    """The hours of a category, or of what is fixed and has a title, that were fewer: museum was only 3h, dentist took 30 min."""
    at = next((at for at in range(1, len(phrase.tokens)) if WAS_ONLY(phrase, at)), None)
    if at is None or phrase.piece:
        return None
    end = at + WAS_ONLY(phrase, at)
    told = replace(phrase, tokens=phrase.tokens[:at] + phrase.tokens[end:])
    return (_set_right(told, 0) if end > at + 1 else None) or _of_title(told, at)


def _of_title(phrase: Phrase, end: int) -> Amend | None:
    """What of the first words up to ``end`` is no day names something that is fixed, and the others its hours."""
    said = explain(phrase.part(0, _before_closers(phrase)), (*(reader for reader in AMEND_READERS if reader is not called),))
    purpose = purpose_of(said.phrase, said.left) if all(at < end for at in said.left) else None
    change = replace(_amend(said, None), day=None)
    if purpose is None or purpose.title is None or said.twice(*KINDS) or change == Amend():
        return None
    return replace(change, of_title=purpose.title, of_day=said.one(date))


def read_correct(phrase: Phrase) -> Amend | None:
    """The hours of a category or a day set right: correct museum monday 9-12."""
    start = CORRECT(phrase)
    return _set_right(phrase, start) if start else None


def _set_right(phrase: Phrase, start: int) -> Amend | None:
    said = explain(phrase.part(start, _before_closers(phrase)), AMEND_READERS)
    named = _whose(said)
    if named is None or not any(named) or said.twice(*KINDS):
        return None
    change = replace(_amend(said, None), day=None)
    return replace(change, of_category=named[0], of_day=named[1]) if change != Amend() else None


def _whose(said: Explained) -> tuple[str | None, date | None] | None:
    """The category and the day that name hours, each perhaps None; None where anything else is said or they are several."""
    call = said.one(Called)
    strange = any(said.phrase.word(at) not in NAMING for at in said.left)
    if strange or said.twice(Called, date) or (call is not None and len(call.names) > 1):
        return None
    return (call.names[0] if call else None), said.one(date)


def read_break_alone(phrase: Phrase) -> Amend | None:
    """A break and nothing else is one in the hours just told: 20 min break, I had a 20 min break. Of a running clock "out" says it."""
    context = phrase.context
    if phrase.piece or context.clocked_in is not None or (context.last_end is None and not context.ran_over):
        return None
    pause = break_said(phrase, BREAK_HAD(phrase))
    over = pause is not None and all(token.text in CLOSERS for token in phrase.tokens[pause.end :])
    return Amend(break_minutes=pause.value.minutes) if pause and over and pause.value.minutes else None


def _before_closers(phrase: Phrase) -> int:
    """Where "actually" and the like end it, or what it is not: it was 1h30 actually; no, 3h not 2h."""
    end = next((at for at in range(2, len(phrase.tokens)) if phrase.word(at) == "not"), len(phrase.tokens))
    while end and phrase.word(end - 1) in ("actually", "sorry", "instead", ".", "!"):
        end -= 1
    return end


def _after_what_it_is_not(phrase: Phrase) -> int:
    """not 3h, 2h: what it is stands behind the comma or "but"; without one nothing is said."""
    return next((at + 1 for at in range(1, len(phrase.tokens)) if phrase.word(at) in (",", "but")), len(phrase.tokens))


def _categories(said: Explained) -> tuple[str, ...] | None:
    call = said.one(Called)
    strange = [said.phrase.word(at) for at in said.left if said.phrase.word(at) not in BESIDE]
    if not strange:
        return call.names if call else ()
    return None if call or len(strange) > 1 else alike(strange[0], said.phrase.names) or None


def _amend(said: Explained, category: str | None) -> Amend:
    amount, hours, pause, by = said.one(Amount), said.one(Hours), said.one(Break), said.one(By)
    starts, ends, bare = said.one(StartsAt), said.one(EndsAt), _bare_time(said)
    rest = pause.minutes if pause else hours.break_minutes or None if hours else None
    start = hours.start if hours else starts.time if starts else None
    end = hours.end if hours and hours.end else ends.time if ends else bare if bare and bare.hour >= LEAST_HOUR else None
    minutes = amount.minutes if amount and (bare is None or end != bare) else None
    if minutes is not None and rest is not None and rest < minutes:
        minutes -= rest
    return Amend(minutes, start, end, rest, said.one(date), category, either=bare is not None, by=by.minutes if by else None)


def _bare_time(said: Explained) -> time | None:
    """The time that "no, 16:45" may be: from 13:00 on figures with a colon are one, and below it a time or an amount."""
    for piece in said.pieces:
        if isinstance(piece.value, Amount) and piece.value.minutes < DAY_MINUTES and said.phrase.word(piece.at + 1) == ":":
            return time(piece.value.minutes // 60, piece.value.minutes % 60)
    return None


def read_undo(phrase: Phrase) -> Undo | None:
    """Nothing but a wish to take the latest action back, or to have it again."""
    again = REDO(phrase)
    end = again or UNDO(phrase)
    is_all = end and all(token.text in (".", "!", "please", "sorry", ",") for token in phrase.tokens[end:])
    return Undo(again=bool(again)) if is_all else None
