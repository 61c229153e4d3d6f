"""A person's week as values, for reading aloud what the bot says of it: a bicycle workshop, a museum's front desk, a course, a family."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from bot.language.meaning import Log, SaidStint
from bot.rules.calendar_events import CalendarEvent
from bot.rules.in_the_way import InTheWay
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.timesheet import Timesheet
from bot.rules.planned import Planned
from bot.rules.planning.remedies import Without
from bot.rules.weather import DayWeather, WetSpell
from bot.rules.weather_danger import Caution, Danger, Level
from bot.rules.week_weather import WeekWeather
from bot.voice.replies import FreeHours, WeekDay, WeekView
from storage.records import (
    Block,
    Calendar,
    Category,
    Commitment,
    DateOrder,
    DayHandedIn,
    DecimalMark,
    Goal,
    GoalState,
    HandedIn,
    Horizon,
    Look,
    Marking,
    Occurrence,
    Person,
    Routine,
    Running,
    Step,
    Stint,
    Task,
    TaskState,
    Weekday,
)
from tests.pictures import made_sheets
from tests.rules.made import BRUSSELS, MONDAY, PERSON, wall
from tests.voice.made_replies import FORMED, PLAIN, Making

TUESDAY = MONDAY + timedelta(days=1)
SUNDAY = MONDAY + timedelta(days=6)
EVERY_TUESDAY = "FREQ=WEEKLY;BYDAY=TU"


def _fixed(title: str, start: str, end: str, **more: Any) -> Occurrence:
    """What is fixed on Tuesday between two times of day, or all of that day."""
    starts, ends = wall(f"2026-03-03 {start}"), wall(f"2026-03-03 {end}")
    return Occurrence(Commitment(1, title, starts, ends, BRUSSELS, **more), TUESDAY, starts, ends)


SHIFT = _fixed("museum shift", "13:00", "17:00", category_id=2, rule=EVERY_TUESDAY)
OCCURRENCES = (
    SHIFT,
    _fixed("choir", "19:30", "21:00", rule="FREQ=WEEKLY;BYDAY=TU,TH", major=False),
    _fixed("dentist", "15:00", "16:00", minutes_before=20, minutes_after=20),
    _fixed("fair on the square", "00:00", "23:59", all_day=True, outdoors=True),
)
TASKS = (
    Task(1, "oil the chains", TUESDAY, 1, 1, estimate_minutes=45),
    Task(2, "call the glazier", TUESDAY, 2),
    Task(3, "true the wheels", TUESDAY, 3, 1, 1, 60, pushes=(MONDAY, MONDAY - timedelta(days=1))),
    Task(4, "clean the window", TUESDAY, 4, state=TaskState.CLOSED, outdoors=True, settled=TUESDAY),
)
GOALS = (
    Goal(1, "finish chapter 4", Horizon.WEEK, MONDAY, "personal", 3, 180),
    Goal(2, "paint the shed", Horizon.MONTH, MONDAY.replace(day=1), "personal", carried=1),
    Goal(3, "fix the tandem", Horizon.WEEK, MONDAY, "work", 1, 60, carried=3),
    Goal(4, "write the notes", Horizon.WEEK, MONDAY, "personal", state=GoalState.MET),
)
STINTS = (
    Stint(1, 2, TUESDAY, 210, wall("2026-03-03 13:00"), wall("2026-03-03 17:00"), 30),
    Stint(2, 1, MONDAY, 60),
    Stint(3, 3, TUESDAY, 45, wall("2026-03-03 08:00"), wall("2026-03-03 08:45"), note="chapter 4"),
)
PEOPLE = (
    PERSON,
    replace(
        PERSON,
        place_name="Ghent",
        latitude=51.05,
        longitude=3.72,
        travel_minutes=20,
        quiet_until=MONDAY + timedelta(days=7),
        date_order=DateOrder.MONTH_DAY,
        decimals=DecimalMark.COMMA,
        pictures=False,
        look=Look.DARK,
        holidays=False,
        week_starts=Weekday.SUNDAY,
    ),
)
SAID = Log((SaidStint("museum", TUESDAY, 210, time(13), time(17), 30),))
WEEK = WeekView(
    tuple(
        WeekDay(day, OCCURRENCES[:count], count > 3, count % 3, "Easter Monday" if count == 1 else None)
        for count, day in ((number % 5, MONDAY + timedelta(days=number)) for number in range(7))
    ),
    GOALS[:2],
)
SKIES = (
    DayWeather(TUESDAY, 4.2, 9.1, 63, 80, (WetSpell(time(14), time(17), 80),), 21, 45, 2),
    DayWeather(TUESDAY, -4, 2, 71, 40, (), 10, 20),
    DayWeather(
        TUESDAY, 12, 12.3, 3, 5, (WetSpell(time(6), time(7), 60), WetSpell(time(9), time(10), 55), WetSpell(time(19), time(20), 70))
    ),
    DayWeather(TUESDAY),
)
WEEKS_WEATHER = (
    WeekWeather(2.2, 14, (TUESDAY,), ()),
    WeekWeather(3, 3, (), (MONDAY, SUNDAY)),
    WeekWeather(None, None, (), tuple(each.day for each in WEEK.days[:5])),
)
VALUED = ((Danger.HEAT, 39.4), (Danger.COLD, -28), (Danger.SUN, 8), (Danger.WIND, 76))
CAUTIONS = (
    *((Caution(danger, level),) for danger in (Danger.RAIN, Danger.SNOW, Danger.FOG, Danger.ICE, Danger.THUNDER) for level in Level),
    *((Caution(danger, Level.DANGER, value),) for danger, value in VALUED),
    (Caution(Danger.WIND, Level.CAUTION, 52), Caution(Danger.RAIN, Level.GREAT_CAUTION, 9)),
)
KEPT_DAYS = (DayHandedIn(TUESDAY, 210, 210), DayHandedIn(TUESDAY, 210, 195), DayHandedIn(TUESDAY, 150, 150))
HANDED_IN = HandedIn(1, 2, MONDAY, made_sheets.LAST, wall("2026-03-16 09:00"), KEPT_DAYS[:1], gross=Decimal("310.20"))
WEEKLY_SHEET = replace(made_sheets.usual(), last=SUNDAY, days=made_sheets.usual().days[:6])
JOBS = (
    replace(made_sheets.DESK, payday_after=5),
    JobRules(1, "workshop", "Spoke and Chain", payday_after=0),
    JobRules(3, "bakery", "Crumb", overtime=made_sheets.DESK.overtime, payday_after=1, currency="GBP"),
)
CALENDARS = (
    Calendar(1, "Museum", "https://museum.example/rota/2026/shifts.ics"),
    Calendar(2, "school.ics"),
    Calendar(3, "Choir", "https://choir.example/all.ics", paused=True),
)
MARKINGS = (
    Marking(1, "choir", minor=True),
    Marking(1, "picnic", minor=False, outdoors=True, minutes_before=20, minutes_after=20),
    Marking(1, "dentist", outdoors=False, minutes_before=0, minutes_after=15),
)
EVENTS = tuple(
    CalendarEvent(f"e{hour}", "", title, wall(f"2026-03-0{3 + hour % 3} {hour}:00"), wall(f"2026-03-0{3 + hour % 3} {hour + 1}:30"))
    for hour, title in ((10, "parents' evening"), (13, "museum shift"), (15, "swimming"))
)

_KINDS: dict[object, tuple[Any, ...]] = {
    Occurrence: OCCURRENCES,
    Commitment: tuple(each.commitment for each in OCCURRENCES),
    Task: TASKS,
    Goal: GOALS,
    Stint: STINTS,
    Running: (Running(1, 1, wall("2026-03-03 09:00")),),
    Routine: (
        Routine(1, "exercise", 30, "FREQ=DAILY", MONDAY, time(7), time(9)),
        Routine(2, "cleaning", 60, "FREQ=WEEKLY;BYDAY=SA", MONDAY),
    ),
    Person: PEOPLE,
    Category: (Category(1, "choir", "personal", ("singing",)), Category(2, "garden", "personal")),
    Log: (SAID,),
    Planned: (SHIFT, Block(1, TUESDAY, wall("2026-03-03 09:00"), wall("2026-03-03 09:45"), "oil the chains", 1)),
    WeekView: (WEEK,),
    DayWeather: SKIES,
    WeekWeather: WEEKS_WEATHER,
    FreeHours: (FreeHours(420, 336), FreeHours(0, 0), FreeHours(60, 60)),
    Timesheet: (made_sheets.usual(), made_sheets.hours_only(), made_sheets.empty(), WEEKLY_SHEET),
    JobRules: JOBS,
    DayHandedIn: KEPT_DAYS,
    HandedIn: (HANDED_IN,),
    Calendar: CALENDARS,
    CalendarEvent: EVENTS,
    Marking: MARKINGS,
    Without: (Without("exercise"),),
    tuple[Caution, ...]: CAUTIONS,
    InTheWay: (InTheWay("museum shift", ("finish chapter 4",), 90), InTheWay("dentist", ("oil the chains", "exercise"), 45)),
    date: (MONDAY, TUESDAY, MONDAY + timedelta(days=2), date(2025, 12, 30)),
    time: (time(13), time(17, 30)),
    datetime: (wall("2026-03-02 09:00"), wall("2026-03-03 13:05")),
    float: (0.9, 1.2, 9.4),
    Decimal: (Decimal("14.50"), Decimal("1.5")),
    Fraction: (Fraction(95, 2),),
    bool: (False, True),
}
_NAMED: dict[tuple[str, type], tuple[object, ...]] = {
    ("title", str): ("oil the chains", "call the glazier", "finish chapter 4"),
    ("category", str): ("museum", "workshop", "learning"),
    ("name", str): ("museum", "Ghent"),
    ("link", str): ("https://museum.example/rota/2026/shifts.ics",),
    ("words", str): ("museum shift",),
    ("employer", str): ("Spoke and Chain",),
    ("key", str): ("exercise",),
    ("taken", str): ("exercise",),
    ("holiday", str): ("Labour Day",),
    ("topic", str): ("hours",),
    ("summary", str): ("Museum, Tue 3 Mar, 13:00–17:00: 4 h",),
    ("text", str): ("the glazier says hello",),
    ("stays", str): ("Museum, Tue 3 Mar, 13:00–17:00: 4 h",),
    ("about", str): ("shifts.ics",),
    ("goal", str): ("finish chapter 4",),
    ("first", date): (MONDAY,),
    ("last", date): (SUNDAY,),
    ("month", date): (date(2026, 3, 1),),
    ("starts", datetime): (wall("2026-03-03 09:00"),),
    ("ends", datetime): (wall("2026-03-03 11:30"),),
    ("total", int): (240,),
    ("most", int): (1440,),
    ("majors", int): (4,),
    ("weeks", int): (3, 17),
    ("times", int): (3,),
    ("code", int): (63,),
    ("of", int): (5200,),
}


def _sampled(values: tuple[object, ...]) -> st.SearchStrategy[Any]:
    return st.sampled_from(values)


SPOKEN = Making(
    st.sampled_from(("museum", "workshop", "oil the chains")),
    st.sampled_from((1, 2, 45, 90, 180)),
    {**PLAIN, **{kind: _sampled(values) for kind, values in _KINDS.items()}},
    {**FORMED, **{key: _sampled(values) for key, values in _NAMED.items()}},
    fewest=0,
)
"""Makes replies of what a week is likely to hold."""

STEPS = tuple(replace(person, step=step) for person in PEOPLE for step in Step if step is not Step.NEW)
"""People at each step of the first conversation."""


def own_words() -> set[str]:
    """All names and titles that sentences about this week may hold."""
    titles = {each.title for kind in (Occurrence, Task, Goal, CalendarEvent) for each in _KINDS[kind]}
    titles |= {str(each) for values in _NAMED.values() for each in values}
    return titles | {each.employer for each in JOBS} | set("bakery choir garden cleaning exercise singing school.ics GBP EUR".split())
