"""Which kinds of reply a clause can be: by its first word, by words that tell wherever they stand, and by its shape.

ordered  := opening …     by the table ``OPENED``: the first word names the kinds that are tried
behind   := numbers verb | category ("in" | "out") …
shaped   := hours | target | routine | place in the plan | commitment, in this order
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeAlias

from bot.language.adding import GOAL, MONTH_GOAL, NAMED_MONTH_GOAL, TASK, read_goal, read_plain_task, read_task
from bot.language.away_said import AWAY, NO, read_away
from bot.language.calendars_said import ADD, LINKED, MARK, NAMED, PAUSE, REMOVE, RESUME, read_add_calendar, read_change_calendar, read_mark
from bot.language.cancel_said import (
    CANCEL,
    CANCELLED,
    UNCANCEL,
    read_after_all,
    read_cancel,
    read_cancelled_behind,
    read_uncancel,
)
from bot.language.changing import (
    AMEND,
    CORRECT,
    REDO,
    UNDO,
    read_amend,
    read_break_alone,
    read_correct,
    read_longer,
    read_undo,
    read_was_only,
)
from bot.language.clocking import (
    ARRIVED,
    BEHIND_A_CATEGORY,
    FORGOT,
    IN,
    OUT,
    OUT_AT,
    VOID,
    read_clock_behind,
    read_clock_in,
    read_clock_out,
    read_clock_out_at,
    read_forgotten,
)
from bot.language.closed_said import WORDS as CLOSED_WORDS
from bot.language.closed_said import read_closed
from bot.language.commitments_said import OPENING, read_another_time, read_commitment, read_plain_commitment
from bot.language.days_off_said import WORDS as DAY_OFF_WORDS
from bot.language.days_off_said import read_day_off
from bot.language.dropping_said import KINDS as STANDING
from bot.language.earnings_said import EARNED, WHEN_PAID, read_earnings
from bot.language.hours_said import read_log
from bot.language.jobs_said import read_job_rule
from bot.language.meaning import Meaning
from bot.language.moved_said import INSTEAD, MOVE, MOVED_WORDS, read_instead_of, read_move, read_moved_behind, read_swapped
from bot.language.new_categories import NEW_CATEGORY, read_new_category
from bot.language.new_ends_said import LATER_WORDS, read_new_end, read_so_much_later
from bot.language.pay_words import RULE_WORDS
from bot.language.phrase import Opening, Phrase, opened_by
from bot.language.planned_said import read_as_planned
from bot.language.plans_said import (
    ACCEPT,
    LATER,
    MAKE,
    NOT_TODAY,
    PUT,
    SWAP,
    read_accept_plan,
    read_later,
    read_make_plan,
    read_not_today,
    read_place,
    read_plan_verb_behind,
    read_swap,
)
from bot.language.routines_named import LEFT_OUT, read_left_out, read_routine_named
from bot.language.routines_said import ROUTINE, read_plain_routine, read_routine
from bot.language.same_hours_said import SAME_WORDS, read_same_hours
from bot.language.set_right_said import read_set_right
from bot.language.setting import BY_TWELVE, BY_TWENTY_FOUR, SETTINGS, SPEAKING, read_set
from bot.language.setting import LEAD as SETTING_LEAD
from bot.language.showing import HELP, LEAD, WANTED, read_help, read_show
from bot.language.taken_out_said import TAKE_OUT, read_taken_out
from bot.language.targets_said import TARGET, read_target
from bot.language.tasks_said import (
    CLOSE,
    CLOSED,
    DROP,
    DROPPED,
    PULL,
    PUSH,
    PUSHED,
    REOPEN,
    read_close,
    read_drop,
    read_for_this_week,
    read_goal_done,
    read_pull,
    read_push,
    read_reopen,
    read_verb_behind,
)
from bot.language.times_asked import DOES, WHEN, WORK, read_times
from bot.language.timesheets_said import read_timesheet
from bot.language.told_done import read_told_done, tells_of_past
from bot.language.travel_said import ALLOW, read_allow
from bot.language.until_said import read_until

KindReader: TypeAlias = Callable[[Phrase], Meaning | None]
Table: TypeAlias = tuple[tuple[frozenset[str], tuple[KindReader, ...]], ...]
"""Words that tell wherever they stand, and the kinds that they tell of."""

ALONE: tuple[tuple[Opening, KindReader], ...] = (
    (LINKED, read_add_calendar),
    (ADD, read_add_calendar),
    (NAMED, read_add_calendar),
    (PAUSE, read_change_calendar),
    (RESUME, read_change_calendar),
    (REMOVE, read_change_calendar),
    (MARK, read_mark),
    (UNDO, read_undo),
    (REDO, read_undo),
    (MAKE, read_make_plan),
    (ACCEPT, read_accept_plan),
    (HELP, read_help),
    (LEAD, read_show),
    (WANTED, read_show),
    *((opening, read_earnings) for opening in (EARNED, WHEN_PAID)),
    *((opening, read_times) for opening in (WORK, WHEN, DOES)),
    *((opening, read_set) for opening, _, _ in SETTINGS),
    (SETTING_LEAD, read_set),
    *((opening, read_set) for opening in (SPEAKING, BY_TWELVE, BY_TWENTY_FOUR)),
    (AMEND, read_amend),
    (CORRECT, read_correct),
)
"""Kinds that fill a line: they are never one of several things in it."""

JOINED: tuple[tuple[Opening, KindReader], ...] = (
    (VOID, read_clock_out),
    (OUT, read_clock_out),
    (OUT_AT, read_clock_out_at),
    (FORGOT, read_forgotten),
    (IN, read_clock_in),
    (ARRIVED, read_clock_in),
    (CLOSE, read_close),
    (NEW_CATEGORY, read_new_category),
    (TAKE_OUT, read_taken_out),
    *STANDING,
    (LEFT_OUT, read_left_out),
    (AWAY, read_away),
    (NO, read_away),
    (DROP, read_drop),
    (REOPEN, read_reopen),
    (LATER, read_later),
    (NOT_TODAY, read_not_today),
    (SWAP, read_swap),
    (SWAP, read_swapped),
    (PUSH, read_push),
    (PULL, read_pull),
    (MOVE, read_move),
    (CANCEL, read_cancel),
    (UNCANCEL, read_uncancel),
    (ROUTINE, read_routine),
    (TARGET, read_target),
    (opened_by("goal"), read_goal_done),
    (MONTH_GOAL, read_goal),
    (NAMED_MONTH_GOAL, read_goal),
    (GOAL, read_goal),
    (OPENING, read_commitment),
    (opened_by("add"), read_log),
    (opened_by("task | tasks | number"), read_verb_behind),
    (TASK, read_task),
    (PUT, read_place),
    (ALLOW, read_allow),
)
NO_SHAPES = (CLOSE, DROP, PUSH, MOVE, CANCEL, ROUTINE, GOAL)
ORDERS = frozenset(word for opening in NO_SHAPES for word in opening.calls) - frozenset(OPENING.calls)
"""What these open is an order that failed, and no title of something else."""
SHORTEST_SENTENCE = 2
LONGEST_QUESTION = 12
"""In tokens: nothing longer asks to see something."""
SHEET_WORDS = frozenset({"timesheet", "timesheets", "handed", "hand", "turned", "submitted"})
BEHIND_WORDS = frozenset(word for opening in (CLOSED, DROPPED, PUSHED, LATER, NOT_TODAY) for word in opening.calls)
OF_WORK: Table = ((RULE_WORDS, (read_job_rule,)), (SHEET_WORDS, (read_timesheet,)), (DAY_OFF_WORDS, (read_day_off,)))
"""The kinds about paid work, which fill a line: they are tried first."""
TELLING: Table = (
    (LATER_WORDS, (read_so_much_later,)),
    (SAME_WORDS, (read_same_hours,)),
    (CLOSED_WORDS, (read_closed,)),
    (BEHIND_WORDS, (read_verb_behind, read_plan_verb_behind)),
    (CANCELLED, (read_cancelled_behind,)),
    (MOVED_WORDS, (read_moved_behind,)),
    (INSTEAD, (read_instead_of,)),
)
TOLD: tuple[KindReader, ...] = (read_log, read_longer, read_was_only, read_until, read_as_planned, read_break_alone, read_target)
SHAPES: tuple[KindReader, ...] = (
    *TOLD,
    read_for_this_week,
    read_plain_routine,
    read_place,
    read_another_time,
    read_new_end,
    read_set_right,
    read_after_all,
    read_plain_commitment,
    read_plain_task,
    read_allow,
    read_routine_named,
)


def _by_first_word(kinds: tuple[tuple[Opening, KindReader], ...]) -> dict[str, tuple[KindReader, ...]]:
    table: dict[str, dict[KindReader, None]] = {}
    for opening, reader in kinds:
        for word in opening.calls:
            table.setdefault(word, {})[reader] = None
    return {word: tuple(readers) for word, readers in table.items()}


OPENED = _by_first_word(ALONE + JOINED)
OPENED_IN_A_PIECE = _by_first_word(JOINED)


def readers_of(phrase: Phrase) -> Iterator[KindReader]:
    """The kinds it may be, by its first word and then by its shape, in the order in which they are tried."""
    first, size = phrase.word(0), len(phrase.tokens)
    if not size:
        return
    words = {token.text for token in phrase.tokens}
    if not phrase.piece:
        yield from _told_by(words, OF_WORK)
    yield from (OPENED_IN_A_PIECE if phrase.piece else OPENED).get(first, ())
    is_short = size <= SHORTEST_SENTENCE and phrase.tokens[0].kind == "word"
    if is_short and not phrase.piece:
        yield read_show
    if phrase.word(1) in BEHIND_A_CATEGORY or phrase.word(2) in BEHIND_A_CATEGORY:
        yield read_clock_behind
    yield from _told_by(words, TELLING)
    if tells_of_past(words):
        yield read_told_done
    yield from TOLD if first in ORDERS else SHAPES
    if size <= LONGEST_QUESTION and not (is_short or phrase.piece):
        yield read_show


def _told_by(words: set[str], table: Table) -> Iterator[KindReader]:
    for telling, readers in table:
        if not telling.isdisjoint(words):
            yield from readers
