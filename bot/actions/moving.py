"""What is fixed in time, moved to another day or time; what was called off is brought back where it is what was meant."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta

from bot.actions.agenda import agenda, own_words, titled_on
from bot.actions.amending import amend, stints_there
from bot.actions.called_off import called_off
from bot.actions.commitments import MOST_OTHERS, add_commitment, instants_of, kept_words, leave_out, meant, starts_later
from bot.actions.matching import best_match
from bot.actions.picking import names_open_task
from bot.actions.refused import Stopped, refused
from bot.actions.tasks import push
from bot.actions.today import today
from bot.language.meaning import AddCommitment, Amend, Meaning, Move, Push
from bot.language.pick import Pick
from bot.rules.calendar_commitments import CalendarCommitment
from bot.rules.load import lighter_days
from bot.rules.local_time import day_bounds, local
from bot.rules.occurrences import nominal_length, times_from
from bot.rules.weeks import days_from, first_of_week, last_of_week
from bot.voice.replies import CommitmentKept, OnlyThere, Question, Reply, ThereAlready, WhereTo, WhichToMove
from storage.desk import Desk
from storage.records import Commitment, Occurrence

A_WEEK = timedelta(days=7)
MOST_TO_MOVE = 5
NOON = time(12)


def add_or_move(desk: Desk, said: AddCommitment) -> Reply:
    """Keeps a commitment; what is said of one that the day holds already moves that one, or is asked about."""
    there = titled_on(desk, said.day, said.title) if said.instead else None
    if there is None:
        return _there_already(desk, said) or add_commitment(desk, said)
    moved = move(desk, _to(said, there))
    return replace(moved, beside=replace(said, instead=False, another=True)) if isinstance(moved, CommitmentKept) else moved


def told_apart(parts: tuple[Meaning, ...]) -> tuple[Meaning, ...]:
    """The parts of one message, of which one more commitment of a name and day is another: museum thursday 9-12 and 13-17."""
    seen: set[tuple[str, date]] = set()
    told: list[Meaning] = []
    for part in parts:
        named = (part.title, part.day) if isinstance(part, AddCommitment) else None
        told.append(replace(part, another=True) if isinstance(part, AddCommitment) and named in seen else part)
        if named is not None:
            seen.add(named)
    return tuple(told)


def _there_already(desk: Desk, said: AddCommitment) -> ThereAlready | None:
    """The question whether the one of its name that the day holds is meant, or another; None where there is none, or more than one."""
    if said.another or said.start is None:
        return None
    same = [each for each in agenda(desk, said.day, said.day) if own_words(each.commitment.title) == own_words(said.title)]
    if len(same) != 1 or isinstance(same[0].commitment, CalendarCommitment):
        return None
    moved = _moved(desk, same[0], _to(said, same[0]))
    return ThereAlready(same[0], moved.starts, moved.ends, _to(said, same[0]), replace(said, another=True))


def _to(said: AddCommitment, there: Occurrence) -> Move:
    return Move(None, said.day, said.start, said.end, from_day=said.day, id=there.commitment.id)


def move(desk: Desk, said: Move) -> Reply:
    """Moves one occurrence; of a recurring commitment only that one, the others stay. A task of that name goes to the day."""
    if said == Move(None, None):
        raise Stopped(_which_to_move(desk))
    if said.or_hours:
        instead = hours_instead(desk, said)
        if instead is not None:
            return instead
    try:
        found = _meant(desk, said)
    except Stopped:
        if said.words is None or said.day is None or said.start is not None or not names_open_task(desk, said.words):
            raise
        return push(desk, Push(Pick(words=said.words), said.day))
    if said.day is None and said.start is None and said.end is None and said.by is None:
        raise Stopped(WhereTo(found, _days_to_move_to(desk, found)))
    if isinstance(found.commitment, CalendarCommitment):
        return OnlyThere(found, found.commitment.calendar, said.day or found.day, said.start, said.end)
    return _kept_moved(desk, found, _moved(desk, found, said))


def _which_to_move(desk: Desk) -> Question:
    """The next commitments of a week, each as a choice. Raises Stopped where there is none."""
    first = today(desk)
    ahead = [each for each in agenda(desk, first, first + A_WEEK) if each.starts > desk.now][:MOST_TO_MOVE]
    if not ahead:
        raise refused("nothing that day", "the week ahead")
    return Question(tuple(Move(each.commitment.title, None, from_day=each.day) for each in ahead))


def _kept_moved(desk: Desk, found: Occurrence, moved: Commitment) -> CommitmentKept:
    """Keeps the occurrence as it is now; of a recurring commitment beside the others."""
    if found.commitment.rule is None:
        kept = desk.commitments.change(moved)
    else:
        leave_out(desk, found)
        kept = desk.commitments.add(replace(moved, id=0, rule=None, except_days=()))
    return kept_words(desk, kept, local(kept.starts, desk.person.zone).date(), moved_from=found)


def _meant(desk: Desk, said: Move) -> Occurrence:
    """The occurrence to be moved: the next one, or the one before it that was called off. Raises Stopped to ask where both are likely."""
    off = _off_that_fit(desk, said)
    try:
        found = meant(desk, said.words, said.id, said.from_day, instead=lambda there: _moving(said, there))
    except Stopped:
        if not off:
            raise
        return off[0] if len(off) == 1 else _asked(off, (), said)
    earlier = tuple(each for each in off if said.from_day is None and each.starts < found.starts)
    if not earlier:
        return found
    sure = len(earlier) == 1 and _is_surely_it(desk, earlier[0], found, said)
    return earlier[0] if sure else _asked(earlier, (found,), said)


def _off_that_fit(desk: Desk, said: Move) -> tuple[Occurrence, ...]:
    """What was called off on the day from which it moves, or in this week and the one to which it moves, and is what was named."""
    first = last = said.from_day or today(desk)
    if said.from_day is None:
        first = first_of_week(first, desk.person.week_starts)
        last = last_of_week(max(last, said.day or last), desk.person.week_starts)
    off = called_off(desk, first, last)
    if said.id is not None:
        return tuple(each for each in off if each.commitment.id == said.id and said.from_day is not None)
    wanted = set((said.words or "").lower().split())
    return tuple(each for each in off if wanted <= set(each.commitment.title.lower().split()))


def _is_surely_it(desk: Desk, off: Occurrence, found: Occurrence, said: Move) -> bool:
    """Whether what was called off is meant, and not the one of its name in a later week."""
    weeks = [first_of_week(day, desk.person.week_starts) for day in (off.day, found.day, said.day or off.day)]
    return off.day >= today(desk) and weeks[0] == weeks[2] != weeks[1] and off.commitment.title == found.commitment.title


def _asked(off: tuple[Occurrence, ...], on: tuple[Occurrence, ...], said: Move) -> Occurrence:
    """Raises Stopped with each as a choice."""
    choices = ((each, _moving(said, each), each in off) for each in (*off[-MOST_OTHERS:], *on))
    raise Stopped(WhichToMove(tuple(choices)))


def hours_instead(desk: Desk, said: Move) -> Reply | None:
    """The hours of a category set right, where those of the day named are logged; asks where it may be either. None where it moves."""
    names = [each.name for each in desk.categories.all() if each.name.lower() == (said.words or "").lower()]
    ahead = said.from_day is not None and said.from_day > today(desk)
    day = (said.from_day or today(desk)) - (A_WEEK if ahead else timedelta(0))
    if not names or not stints_there(desk, names[0], day):
        return None
    correction = Amend(start=said.start, end=said.end, of_category=names[0], of_day=day)
    planned = [each for each in agenda(desk, said.from_day, said.from_day) if each.day == said.from_day] if ahead and said.from_day else []
    if best_match(names[0], [(each.commitment.title, each) for each in planned]) is None:
        return amend(desk, correction)
    raise Stopped(Question((correction, replace(said, or_hours=False))))


def _days_to_move_to(desk: Desk, found: Occurrence) -> tuple[date, ...]:
    """The days of the week ahead that have its part of the day free."""
    ahead = days_from(today(desk), today(desk) + A_WEEK)
    around = agenda(desk, ahead[0], ahead[-1])
    days = [day for day in ahead if starts_later(desk, found, day)]
    return tuple(sorted(lighter_days(found, around, days, desk.person.zone)))


def _moving(said: Move, there: Occurrence) -> Move:
    return replace(said, words=None, id=there.commitment.id, from_day=there.day)


def _moved(desk: Desk, found: Occurrence, said: Move) -> Commitment:
    """The commitment at its new day and hours; what is not said stays, the length too, as the clocks on the wall show it."""
    zone = desk.person.zone
    day = said.day or found.day
    if found.commitment.all_day and said.start is None:
        starts, ends = day_bounds(day, zone)
        return replace(found.commitment, starts=starts, ends=ends, cancelled=False)
    start = said.start or local(found.starts, zone).time()
    end = _end(desk, found, said, start)
    if end is not None or found.commitment.all_day:
        starts, ends = instants_of(desk, day, start, end)
    else:
        wall = datetime.combine(day, start.replace(fold=0)) + timedelta(minutes=said.by or 0)
        starts, ends = times_from(wall, nominal_length(found, zone), zone, found.ends - found.starts)
    return replace(found.commitment, starts=starts, ends=ends, zone=zone, all_day=False, cancelled=False)


def _end(desk: Desk, found: Occurrence, said: Move, start: time) -> time | None:
    """The end that was said, or that it had where only its start changes; None where its length stays.

    An end alone that would come before the start is the one half a day later, from 13:00 until 6, or the night's, from 18:00 until 2.
    """
    zone = desk.person.zone
    if said.keeps_end:
        end = local(found.ends, zone).time()
        return end if end > start or local(found.ends, zone).date() > found.day else None
    if said.end is None or said.start is not None or said.end > start:
        return said.end
    if said.end >= NOON:
        return said.end.replace(hour=said.end.hour - 12)
    later = said.end.replace(hour=said.end.hour + 12)
    return later if later > start else said.end
