"""Meanings of every kind that a reply can have, for property tests. Titles are made of the words that make trouble."""

from __future__ import annotations

from datetime import date, time, timedelta
from typing import Literal
from zoneinfo import ZoneInfo

from hypothesis import strategies as st

from bot.language.calendar_meaning import AddCalendar, ChangeCalendar, MarkEvents
from bot.language.elapsed import elapsed_minutes
from bot.language.meaning import (
    AddCommitment,
    AddGoal,
    AddRoutine,
    AddTask,
    Amend,
    Cancel,
    ClockIn,
    ClockOut,
    Close,
    Drop,
    Log,
    Meaning,
    Move,
    Push,
    Reopen,
    SaidStint,
    Set,
    SetTarget,
    Several,
    Show,
    TakeOut,
    Undo,
)
from bot.language.pay_meaning import (
    HandIn,
    NewJob,
    RemindPayday,
    SendTimesheet,
    SetBreak,
    SetJobWord,
    SetOvertime,
    SetPayday,
    SetPayPeriod,
    SetRate,
    SetRounding,
)
from bot.language.pick import Pick
from bot.language.plan_meaning import AcceptPlan, AsPlanned, DayOff, Later, MakePlan, NotToday, Place, SameHours, Swap
from bot.language.standing_meaning import AllowTravel, DropCategory, DropRoutine, DropTarget, RenameCategory, TakesPlace
from tests.language.person import CATEGORIES

ZONE = ZoneInfo("Europe/Brussels")
TROUBLE = """
call Ann the glazier spokes 2h friday today push done every tuesday workshop museum kids on - at 9 9-12 for goal and minor task 1 month week
tomorrow, to from 30m less noon Bo's café x2 drop appt reading's (new) no home
"""
RULES = (
    "FREQ=DAILY",
    "FREQ=DAILY;INTERVAL=2",
    "FREQ=WEEKLY;BYDAY=TU",
    "FREQ=WEEKLY;BYDAY=TU,TH",
    "FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR",
    "FREQ=WEEKLY;INTERVAL=2;BYDAY=MO",
    "FREQ=MONTHLY;BYDAY=1FR",
)

days = st.dates(date(2025, 1, 1), date(2028, 12, 31))
times = st.builds(time, st.integers(0, 23), st.sampled_from((0, 5, 15, 30, 45, 59)))
names = st.sampled_from([category.name for category in CATEGORIES])
maybe_names = st.none() | names
lengths = st.integers(1, 14 * 60)
maybe_lengths = st.none() | lengths
titles = st.lists(st.sampled_from(TROUBLE.split()), min_size=1, max_size=6).map(" ".join)
numbers = st.lists(st.integers(1, 40), min_size=1, max_size=4, unique=True).map(tuple)
picks = st.builds(Pick, numbers=numbers) | st.sampled_from((Pick(all=True), Pick(all=True, goals=True))) | st.builds(Pick, words=titles)
picks_with_goals = picks | st.builds(Pick, words=titles, goals=st.just(True))
ways = st.sampled_from([(None, None), (20, 20), (15, None), (None, 10), (30, 45), (0, 0)])
picks_or_none = picks_with_goals | st.just(Pick())


@st.composite
def stints(draw: st.DrawFn) -> SaidStint:
    """Hours with or without a start and an end, a break, tasks and a note."""
    day, category = draw(days), draw(names)
    tasks = draw(st.just(()) | numbers)
    note = draw(st.none() | titles)
    start, end = draw(st.sampled_from([(None, None), (draw(times), draw(times))]))
    gross = elapsed_minutes(day, start, end, ZONE) if start is not None and end is not None else draw(lengths)
    away = draw(st.sampled_from([0, 0, 15, 30])) if gross > 30 else 0
    return SaidStint(category, day, gross - away, start, end, away, tasks, note)


@st.composite
def spans(draw: st.DrawFn, what: str) -> Show:
    """Something to look at over some days, or over its usual ones."""
    first, last = sorted((draw(days), draw(days)))
    category = draw(maybe_names)
    if draw(st.booleans()):
        return Show(what, category=category)  # type: ignore[arg-type]
    return Show(what, first=first, last=last, category=category)  # type: ignore[arg-type]


@st.composite
def moves(draw: st.DrawFn) -> Move:
    """A move names a day, or a time, or both."""
    start = draw(st.none() | times)
    day = draw(days) if start is None else draw(st.none() | days)
    end = draw(st.none() | times) if start is not None else None
    return Move(draw(titles), day, start, end if end != start else None, from_day=draw(st.none() | days))


def _rules_of(day: date) -> st.SearchStrategy[str | None]:
    """Rules that fall on ``day``."""
    code = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")[day.weekday()]
    monthly = f"FREQ=MONTHLY;BYDAY={(day.day - 1) // 7 + 1}{code}"
    rules = [
        None,
        None,
        "FREQ=DAILY",
        "FREQ=DAILY;INTERVAL=2",
        f"FREQ=WEEKLY;BYDAY={code}",
        f"FREQ=WEEKLY;INTERVAL=2;BYDAY={code}",
        monthly,
    ]
    return st.sampled_from(rules)


@st.composite
def commitments(draw: st.DrawFn) -> AddCommitment:
    """A commitment on a day; one that recurs begins on it and has a time."""
    day = draw(days)
    rule = draw(_rules_of(day))
    start = draw(times) if rule else draw(st.none() | times)
    end = draw(st.none() | times) if start is not None else None
    flags = draw(st.booleans()), draw(st.booleans())
    way = draw(ways) if start is not None else (None, None)
    return AddCommitment(draw(titles), day, start, end if end != start else None, draw(maybe_names), rule, *flags, *way)


@st.composite
def amendments(draw: st.DrawFn) -> Amend:
    """A correction of something, at least: of an end, of all, or by how much."""
    if draw(st.booleans()):
        return Amend(by=draw(st.integers(-90, 90).filter(bool)), of_category=draw(maybe_names))
    hours = draw(st.sampled_from([(None, None), (time(9), time(12, 30)), (time(13), time(17)), (time(9, 20), None), (None, time(17))]))
    minutes = draw(maybe_lengths) if hours == (None, None) else None
    change = Amend(minutes, *hours, draw(st.none() | st.integers(1, 90)), draw(st.none() | days), draw(maybe_names))
    return change if change != Amend() else Amend(minutes=60)


settings = st.one_of(
    st.builds(Set, st.sampled_from(("morning", "evening", "recap")), times.map(lambda at: f"{at:%H:%M}")),
    st.builds(Set, st.just("week_starts"), st.sampled_from(("monday", "saturday", "sunday"))),
    st.sampled_from([Set("dates", "day-month"), Set("dates", "month-day"), Set("clock", "12-hour"), Set("clock", "24-hour")]),
    st.builds(Set, st.just("place"), st.sampled_from(("Ghent", "New York", "Saint-Malo"))),
    st.builds(Set, st.just("zone"), st.sampled_from(("Europe/Brussels", "America/New_York"))),
    st.builds(Set, st.just("free_share"), st.integers(0, 90).map(str)),
    st.builds(Set, st.just("travel"), st.integers(1, 240).map(str)),
    st.builds(Set, st.just("holidays"), st.sampled_from(("on", "off"))),
    st.builds(Set, st.just("decimals"), st.sampled_from(("comma", "point"))),
    st.builds(Set, st.just("pictures"), st.sampled_from(("on", "off", "light", "dark"))),
    st.builds(Set, st.just("quiet"), days.map(date.isoformat) | st.just("off")),
    st.builds(Set, st.just("waking"), st.sampled_from(("07:00-22:00", "06:30-21:15", "05:00-23:45"))),
    st.builds(
        Set, st.just("category"), st.sampled_from(("choir; personal", "choir; work; singing", "board games; personal; chess, cards"))
    ),
)
windows = st.sampled_from([(None, None), (time(7), time(9)), (time(18, 30), time(21)), (time(9), time(17, 30))])

bounds = st.tuples(st.none() | st.integers(1, 2000), st.none() | st.integers(2000, 4000)).filter(any)
targets = st.builds(lambda name, both: SetTarget(name, *both), names, bounds)
routines = st.builds(
    lambda title, minutes, rule, window, name: AddRoutine(title, minutes, rule, window[0], window[1], name),
    titles,
    lengths,
    st.sampled_from(RULES),
    windows,
    maybe_names,
)
shows = st.one_of(
    st.builds(Show, st.just("day"), days),
    st.builds(TakeOut, names, lengths, st.none() | days),
    st.sampled_from(
        [
            Show("export"),
            Show("earnings", first=date(2026, 3, 1), last=date(2026, 3, 31), category="museum"),
            Show("week_picture"),
            Show("week_page"),
            Show("week_page", form="letter"),
            Show("hours_picture", category="museum"),
            Show("day", date(2026, 3, 3), topic="tasks"),
            Show("tasks"),
            Show("times", topic="museum shift"),
            Show("times", topic="choir", first=date(2026, 3, 9), last=date(2026, 3, 15)),
            Show("times"),
            Show("times", category="museum", first=date(2026, 3, 6), last=date(2026, 3, 6)),
            Show("tasks", first=date(2026, 3, 9), last=date(2026, 3, 15)),
            Show("day", date(2026, 3, 6), topic="tasks"),
        ]
    ),
    st.sampled_from(
        [Show("week"), Show("month"), Show("settings"), Show("calendars"), Show("routines"), Show("help"), Show("help", topic="hours")]
    ),
    st.sampled_from(["hours", "goals", "timesheet"]).flatmap(spans),
)
logs = st.builds(Log, st.lists(stints(), min_size=1, max_size=3).map(tuple))
goal_periods: st.SearchStrategy[tuple[Literal["week", "month"], date | None]] = st.sampled_from(
    (("week", None), ("month", None), ("week", date(2026, 3, 9)), ("month", date(2026, 4, 1)), ("month", date(2027, 2, 1)))
)


@st.composite
def goals(draw: st.DrawFn) -> AddGoal:
    """A goal of the current week or month, or of a later one, as seen on 3 March 2026; with a category or a section."""
    horizon, period = draw(goal_periods)
    category = draw(maybe_names)
    section = draw(st.none() | st.sampled_from(("personal", "work"))) if category is None else None
    return AddGoal(draw(titles), horizon, category, section, draw(maybe_lengths), period)


orders: st.SearchStrategy[Meaning] = st.one_of(
    st.builds(ClockIn, maybe_names, st.none() | times),
    st.builds(ClockOut, maybe_names, st.none() | times),
    st.builds(ClockOut, maybe_names, times, days),
    st.just(ClockOut(void=True)),
    st.builds(Close, picks_with_goals, maybe_lengths),
    st.just(Close(Pick())),
    st.builds(Drop, picks_or_none),
    st.builds(Reopen, picks_or_none),
    st.builds(Push, picks_or_none, days | st.sampled_from(("week", "this week", "month", "next month"))),
    st.builds(AddTask, titles, days, maybe_names, maybe_lengths, st.none() | titles, outdoors=st.booleans()),
    goals(),
    commitments(),
    moves(),
    st.builds(Move, titles, st.none(), from_day=st.none() | days),
    st.builds(Move, names, st.none(), from_day=st.none() | days, by=st.sampled_from((-60, -15, 30, 150))),
    st.just(Move(None, None)),
    st.builds(Cancel, titles, st.none() | days),
    st.builds(Cancel, st.none(), days),
    days.flatmap(lambda day: st.builds(Cancel, titles, st.just(day), last=st.integers(1, 20).map(lambda more: day + timedelta(days=more)))),
    routines,
    targets,
    st.builds(Later, picks),
    st.builds(NotToday, picks),
    st.builds(Swap, st.integers(1, 40), st.integers(41, 60)),
)
plans: st.SearchStrategy[Meaning] = st.one_of(
    st.sampled_from([MakePlan(), MakePlan("week"), AcceptPlan()]),
    st.builds(MakePlan, st.just("day"), days),
    st.builds(SameHours, st.dates(date(2026, 2, 10), date(2026, 3, 1)), maybe_names),
    st.builds(AsPlanned, st.dates(date(2026, 2, 10), date(2026, 3, 1)), maybe_names, st.none(), st.sampled_from([0, 15])),
    st.builds(AcceptPlan, days),
    st.builds(DayOff, days.filter(lambda day: day >= date(2026, 3, 3)), st.booleans()),
    st.builds(Place, st.builds(Pick, numbers=numbers), st.just(time(9)), st.just(time(11, 30))),
)
links = st.sampled_from(("https://museum.example/shifts.ics", "webcal://school.example/term?group=a,b&x=2h", "https://[2001:db8::1]/c.ics"))
calendars: st.SearchStrategy[Meaning] = st.one_of(
    st.builds(AddCalendar, links, st.none() | titles),
    st.builds(ChangeCalendar, titles, st.sampled_from(("pause", "resume", "remove"))),
    st.builds(
        lambda words, name, minor, outdoors, way: MarkEvents(words, name, minor, outdoors, *way),
        titles,
        maybe_names,
        st.none() | st.booleans(),
        st.none() | st.booleans(),
        ways,
    ).filter(lambda said: said != MarkEvents(said.words)),
)
standing: st.SearchStrategy[Meaning] = st.one_of(
    st.builds(lambda words, way: AllowTravel(words, *way), st.sampled_from(("choir", "museum shift", "School play")), ways.filter(any)),
    st.builds(TakesPlace, st.sampled_from(("choir", "museum shift", "School play")), st.none() | days),
    st.builds(DropRoutine, titles),
    st.builds(DropRoutine, st.none(), st.integers(1, 40)),
    st.builds(DropTarget, names),
    st.builds(DropCategory, names),
    st.builds(RenameCategory, names, st.sampled_from(("TA", "front desk", "Café"))),
)
amounts = st.sampled_from(("14.50", "15", "9.75", "120.125"))
weekly = st.sampled_from(("weekly", "every two weeks", "four-weekly"))
forms = st.sampled_from([(), ("pdf",), ("csv", "xlsx")])
between = st.tuples(days, days).map(lambda pair: (min(pair), max(pair), 0))
which = st.sampled_from([(None, None, 0), (None, None, 1), (None, None, 2)]) | between
work: st.SearchStrategy[Meaning] = st.one_of(
    st.builds(NewJob, st.sampled_from(("bakery", "night school")), st.sampled_from((None, "Crumb & Sons")), weekly, st.none() | days),
    st.builds(NewJob, st.just("bakery"), st.none(), st.just("monthly"), st.none(), st.integers(1, 31), st.just("9.40"), st.just("EUR")),
    st.sampled_from([NewJob("bakery"), NewJob("bakery", "Crumb & Sons")]),
    st.builds(SetRate, maybe_names, amounts, st.none() | days, st.sampled_from((None, "EUR", "GBP"))),
    st.builds(SetRounding, maybe_names, st.sampled_from((5, 6, 15)), st.sampled_from(("each punch", "each day"))),
    st.builds(SetRounding, maybe_names, st.none()),
    st.builds(SetBreak, maybe_names, st.integers(1, 90), lengths),
    st.builds(SetBreak, maybe_names),
    st.builds(SetPayPeriod, names, weekly, st.none() | days),
    st.builds(SetPayPeriod, names, st.just("monthly"), st.none(), st.none() | st.integers(1, 31)),
    st.builds(SetPayPeriod, names, st.just("twice a month")),
    st.builds(SetPayday, maybe_names, st.none() | st.integers(0, 40)),
    st.builds(SetOvertime, maybe_names, lengths, st.sampled_from(("1.5", "2", "1.25")), st.sampled_from(("week", "day", "seventh day"))),
    st.builds(SetOvertime, maybe_names),
    st.builds(SetJobWord, names, st.just("workweek"), st.sampled_from(("monday", "sunday"))),
    st.builds(SetJobWord, names, st.just("currency"), st.sampled_from(("EUR", "GBP", "NOK"))),
    st.builds(SetJobWord, names, st.just("employer"), st.sampled_from(("City Museum", "Crumb & Sons"))),
    st.builds(RemindPayday, st.booleans(), maybe_names),
    st.builds(lambda name, period: HandIn(name, period[0], period[1], period[2]), maybe_names, which),
    st.builds(
        lambda name, period, forms: SendTimesheet(name, period[0], period[1], period[2], forms),
        maybe_names,
        which,
        st.sampled_from(((), ("pdf",), ("csv",))),
    ),
    st.builds(Show, st.just("timesheet"), category=maybe_names, back=st.integers(1, 2)),
    st.builds(Show, st.just("job"), category=maybe_names),
)
alone: st.SearchStrategy[Meaning] = st.one_of(
    shows, st.sampled_from([Undo(), Undo(again=True)]), plans, calendars, standing, settings, amendments(), work
)


def _parts(logs_first: bool, log: Log, parts: list[Meaning]) -> Meaning:
    return Several((log, *parts) if logs_first else (*parts, log))


several: st.SearchStrategy[Meaning] = st.builds(_parts, st.booleans(), logs, st.lists(orders, min_size=1, max_size=2))
meanings: st.SearchStrategy[Meaning] = st.one_of(logs, orders, alone, several)
