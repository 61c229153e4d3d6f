"""Correcting hours that were logged."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta

from bot.actions.hours import AHEAD, check_past, clashes_of, item_of, log, stint_of
from bot.actions.naming import category_name, category_named
from bot.actions.refused import Stopped, refused
from bot.actions.today import today
from bot.language.meaning import Amend, Log, SaidStint
from bot.rules.local_time import instant_shown, local
from bot.voice.manners import manners_of, title_text
from bot.voice.replies import HoursClash, Logged, Question, Reply, WhichHours
from storage.desk import Desk
from storage.records import Stint

NEAR = 120
"""Minutes that a correction changes at most where figures may be a time or a length; common practice, no source."""

FAR = 240
"""Minutes from both ends from which on figures that may be a length are no time of those hours; common practice, no source."""

LOOK_BACK = timedelta(days=6)
"""How far back the hours of a category are looked for when no day is said."""

FRESH = timedelta(hours=12)
"""How long after they were told hours are corrected without being named, where nothing was done since; common practice, no source."""

JUST_NOW = timedelta(minutes=15)
"""How long whatever was done since; common practice, no source."""

LONGEST = timedelta(hours=16)
"""More hours in one stretch were hardly meant; common practice, no source."""

MOST_ASKED = 3
DAY_MINUTES = 24 * 60
HALF_DAY = 12


def amend(desk: Desk, said: Amend) -> Reply:
    """Corrects the stint meant; one that is so already is only told again. Raises Stopped with buttons where it may be either of two."""
    if said.in_all:
        return _in_all(desk, said)
    said = _of_its_own(desk, said)
    stint = _stint_meant(desk, said)
    if stint is None:
        raise refused("no hours to correct")
    other = _other_hours(desk, stint, said)
    if other is not None:
        return log(desk, other)
    if not is_named(said) and not _is_fresh(desk, stint):
        raise Stopped(Question(which_hours(desk, said)))
    ways = ways_of(desk, stint, said)
    if len(ways) > 1:
        raise Stopped(Question(tuple(replace(way, id=stint.id) for way in ways)))
    words = amended(desk, stint, ways[0])
    changed = replace(stint_of(desk, words), id=stint.id, task_ids=stint.task_ids)
    if (changed.day, changed.ends) != (stint.day, stint.ends):
        check_past(desk, None, changed, words)
    others = [each for each in clashes_of(desk, [changed]) if each.id not in (stint.id, 0)]
    if others:
        again = Log((replace(words, task_ids=stint.task_ids),), corrects=stint.id)
        raise Stopped(HoursClash(again, tuple((category_name(desk, each.category_id) or "", each) for each in others)))
    return Logged((item_of(desk, desk.stints.change(changed)),), corrected=changed != stint)


def _stint_meant(desk: Desk, said: Amend) -> Stint | None:
    """The stint named; else that of the entry replied to, or the latest. Of a category and day that both have hours, those."""
    if said.id is not None:
        return desk.stints.find(said.id)
    if said.of_category is not None or said.of_day is not None:
        return _of(desk, said)
    if said.entry is not None:
        ids = desk.journal.find_rows(said.entry, "stints")
        return desk.stints.find(ids[0]) if ids else None
    if said.category is not None and said.day is not None:
        there = stints_there(desk, said.category, said.day)
        return _fitting(desk, there, said) if there else desk.stints.latest()
    return desk.stints.latest()


def _of_its_own(desk: Desk, said: Amend) -> Amend:
    """What names another category than the latest hours is about that one's own of the day, where it has some: no, museum 5h.

    Only the very length or times of the latest hours say that these are what was meant for the other category.
    """
    latest = desk.stints.latest()
    if latest is None or said.category is None or said.day is not None or is_named(said) or not _says_how_long(said):
        return said
    named = category_named(desk, said.category)
    own = stints_there(desk, named.name, latest.day)
    if named.id == latest.category_id or not own or _is_so_already(desk, latest, said):
        return said
    return replace(said, category=None, of_category=named.name, of_day=latest.day)


def _says_how_long(said: Amend) -> bool:
    return any(each is not None for each in (said.minutes, said.start, said.end, said.by, said.break_minutes))


def _is_so_already(desk: Desk, stint: Stint, said: Amend) -> bool:
    """Whether the hours have the length and the times that are said."""
    zone = desk.person.zone
    start, end = (local(each, zone).time() if each else None for each in (stint.starts, stint.ends))
    pairs = ((said.minutes, stint.minutes), (said.start, start), (said.end, end), (said.break_minutes, stint.break_minutes))
    return said.by is None and all(wanted in (None, there) for wanted, there in pairs)


def is_named(said: Amend) -> bool:
    """Whether it says itself which hours it is about; a category and a day together do."""
    of_both = said.category is not None and said.day is not None
    return of_both or any(each is not None for each in (said.id, said.entry, said.of_category, said.of_day, said.of_title))


def _is_fresh(desk: Desk, stint: Stint) -> bool:
    """Whether those hours were told just now, or are what was done last: a correction that names none is about nothing older."""
    if desk.journal.touched_since("stints", stint.id, desk.now - JUST_NOW):
        return True
    last = desk.journal.latest_to_undo()
    return last is not None and stint.id in desk.journal.find_rows(last.id, "stints") and desk.now - last.at <= FRESH


def which_hours(desk: Desk, said: Amend) -> tuple[Amend, ...]:
    """The correction of each of the hours that were noted last, the latest first."""
    noted = sorted(desk.stints.between(today(desk) - LOOK_BACK, today(desk)), key=lambda each: each.id, reverse=True)
    found = noted[:MOST_ASKED]
    if not found:
        raise refused("only older hours", _as_named(desk, latest)) if (latest := desk.stints.latest()) else refused("no hours to correct")
    return tuple(replace(said, of_category=category_name(desk, each.category_id), of_day=each.day, id=each.id) for each in found)


def _as_named(desk: Desk, stint: Stint) -> str:
    """The hours as a reply names them: "museum tue 3 mar"."""
    return f"{category_name(desk, stint.category_id)} {manners_of(desk.person, desk.now).day(stint.day).lower()}"


def _other_hours(desk: Desk, stint: Stint, said: Amend) -> Log | None:
    """Hours of a day that has none yet, told in full as if to correct: they are new, unless what was done last is what they correct."""
    if said.start is None or said.end is None or said.day is None or said.category is None or (said.id or said.entry or said.of_day):
        return None
    last = desk.journal.latest_to_undo()
    if stint.day == said.day or (last is not None and stint.id in desk.journal.find_rows(last.id, "stints")):
        return None
    return Log((SaidStint(said.category, said.day, 0, said.start, said.end, said.break_minutes or 0),))


def _of(desk: Desk, said: Amend) -> Stint:
    """The stint of a category, a day or both. Raises Stopped where there is none, and with a choice where two categories have some."""
    there = stints_there(desk, said.of_category, said.of_day)
    if not there:
        day = manners_of(desk.person, desk.now).near_day(said.of_day) if said.of_day else None
        raise refused("no hours there", ", ".join(part for part in (title_text(said.of_category or ""), day) if part))
    names = dict.fromkeys(category_name(desk, each.category_id) for each in there)
    if len(names) > 1:
        raise Stopped(Question(tuple(replace(said, of_category=name) for name in names)))
    if len(there) > 1 and said.minutes is not None and not (said.start or said.end):
        raise Stopped(WhichHours(said, category_name(desk, there[0].category_id) or "", there[0].day, tuple(there)))
    return _fitting(desk, there, said)


def _in_all(desk: Desk, said: Amend) -> Logged:
    """The minutes are those of the category on that day together: its first hours become all of them."""
    first, *others = stints_there(desk, said.of_category, said.of_day)
    for each in others:
        desk.stints.remove(each.id)
    words = amended(desk, first, replace(said, break_minutes=0))
    return Logged((item_of(desk, desk.stints.change(replace(stint_of(desk, words), id=first.id, note=None))),), corrected=True)


def stints_there(desk: Desk, category: str | None, day: date | None) -> list[Stint]:
    """The stints of a category, of a day, or of both, in their order; without a day those of the latest day that has any."""
    first = day or today(desk) - LOOK_BACK
    found = desk.stints.between(first, day or today(desk))
    named = category_named(desk, category).id if category is not None else None
    of_it = [each for each in found if named is None or each.category_id == named]
    latest = max((each.day for each in of_it), default=None)
    return [each for each in of_it if each.day == latest]


def _fitting(desk: Desk, there: list[Stint], said: Amend) -> Stint:
    """Of several, the one that what is said lies nearest to: in time where times are said, else the latest."""
    wanted = said.start or said.end
    if wanted is None:
        return there[-1]
    zone = desk.person.zone
    return min(reversed(there), key=lambda each: _gap(wanted, local(each.starts, zone).time()) if each.starts else DAY_MINUTES)


def ways_of(desk: Desk, stint: Stint, said: Amend) -> tuple[Amend, ...]:
    """What is said as a correction of that stint: a time that may be either end changes the nearer one, and both are ways if neither is."""
    at = said.end or _as_time(said.minutes)
    plain = replace(_in_its_half(desk, stint, said), either=False)
    if not said.either or at is None or stint.starts is None or stint.ends is None:
        return (plain,)
    zone = desk.person.zone
    to_start, to_end = (_gap(at, local(edge, zone).time()) for edge in (stint.starts, stint.ends))
    first, last = replace(plain, minutes=None, start=at, end=None), replace(plain, minutes=None, end=at)
    times = (first,) if 2 * to_start <= to_end else (last,) if 2 * to_end <= to_start else (last, first)
    if said.minutes is None:
        return times
    near, fits = min(to_start, to_end) <= NEAR, abs(said.minutes - stint.minutes) <= NEAR
    if near and not fits:
        return times
    return (plain,) if (fits and not near) or min(to_start, to_end) > FAR else (plain, *times)


def _in_its_half(desk: Desk, stint: Stint, said: Amend) -> Amend:
    """One end alone in the half of the day in which it is near the end that it corrects: no, until 8 of 13:00–19:30 is 20:00.

    An end that cannot be yet, or would be half a day too late, is in the other half: no, until 2:30 of 18:00–01:30.
    """
    if stint.starts is None or stint.ends is None or (said.start is None) == (said.end is None):
        return said
    at, old = said.start or said.end or time(), local(stint.starts if said.start else stint.ends, desk.person.zone).time()
    other = at.replace(hour=(at.hour + HALF_DAY) % 24)
    near = at.hour <= HALF_DAY and _gap(other, old) <= NEAR
    if not near and (said.end is None or _may_end(desk, stint.starts, at) or not _may_end(desk, stint.starts, other)):
        return said
    return replace(said, start=other) if said.start else replace(said, end=other)


def _may_end(desk: Desk, starts: datetime, at: time) -> bool:
    """Whether hours that began then have ended at the first such time after it, and are not too many to be true."""
    zone = desk.person.zone
    day = local(starts, zone).date()
    ends = next((each for each in (instant_shown(day + timedelta(days=ahead), at, zone) for ahead in (0, 1)) if each > starts), starts)
    return starts < ends <= min(desk.now + AHEAD, starts + LONGEST)


def _as_time(minutes: int | None) -> time | None:
    return time(minutes // 60, minutes % 60) if minutes is not None and minutes < DAY_MINUTES else None


def _gap(one: time, other: time) -> int:
    """The minutes between two times of day, the shorter way round."""
    away = abs((one.hour - other.hour) * 60 + one.minute - other.minute)
    return min(away, DAY_MINUTES - away)


def amended(desk: Desk, stint: Stint, said: Amend) -> SaidStint:
    """The stint as it would have been said in the first place. New minutes without times make it untimed; longer is longer at the end.

    One that is not kept yet may have no category.
    """
    zone = desk.person.zone
    by = timedelta(minutes=said.by or 0)
    untimed = said.minutes is not None and said.start is None
    start = None if untimed or stint.starts is None else local(stint.starts, zone).time()
    end = None if untimed or stint.ends is None else local(stint.ends + by, zone).time()
    off = stint.break_minutes if said.break_minutes is None else said.break_minutes
    if said.by is not None and stint.minutes + said.by <= 0:
        raise refused("no time left")
    if said.end is not None and said.start is None and start is None:
        raise refused("no start known")
    return SaidStint(
        category=said.category or category_name(desk, stint.category_id or None),
        day=said.day or stint.day,
        minutes=said.minutes if said.minutes is not None else stint.minutes + stint.break_minutes - off + (said.by or 0),
        start=said.start or start,
        end=said.end or end,
        break_minutes=0 if untimed and said.break_minutes is None else off,
        note=stint.note,
    )
