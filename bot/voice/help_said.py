"""Help that teaches by example."""

from __future__ import annotations

import re
from itertools import cycle

from bot.language.meaning import Show
from bot.voice.manners import Manners
from bot.voice.message import Message, Page, Rows, Tap
from bot.voice.replies import Help

OUR_JOBS = ("workshop", "museum")
OUR_OTHERS = ("learning", "family", "home")
OUR_NAMES = re.compile(rf"\b({'|'.join((*OUR_JOBS, *OUR_OTHERS))})\b(?!\.)")
"""Our categories in the examples, and not in the address of a link."""
A_ROW = 4
"""Buttons that stand beside each other on a phone, where their labels are short."""
A_ROW_OF_LONG = 3

HELP = {
    "hours": (
        "Logging hours",
        "3h workshop, 1h family",
        "museum 13-17 less 30m",
        "yesterday 2h learning - chapter 4",
        "3h workshop 2h museum",
    ),
    "clock": (
        "The clock",
        "in workshop",
        "in museum 13:05",
        "out",
        "left the museum at 17:10",
        "discard the clock",
    ),
    "undo": (
        "Taking back, putting right",
        "undo",
        "redo",
        "no, 2h",
        "make it museum",
        "no, 13-16:30",
    ),
    "tasks": (
        "Tasks",
        "task call the glazier",
        "task order spokes friday 30m workshop",
        "done 1",
        "done glazier",
        "closed 2 in 45m",
        "drop 3",
        "reopen 3",
    ),
    "push": (
        "Pushing",
        "push 2",
        "push 2 to friday",
        "push all to monday",
        "push 2 to next week",
        "push 2 to the month",
    ),
    "goals": (
        "Goals",
        "goal finish chapter 4 learning 3h",
        "month goal paint the shed home",
        "done chapter 4",
        "goal next week: fix the tandem",
    ),
    "targets": (
        "Hours wanted a week",
        "target learning at least 5h",
        "target museum at most 20h",
        "target family 4-8h",
    ),
    "appointments": (
        "Appointments",
        "appt tomorrow 15:00 dentist",
        "museum shift every tue 13-17",
        "choir every thursday 19:30-21:00 minor",
        "move dentist to fri 16:00",
        "cancel dentist",
        "dentist thu 15:00-16:00, 20 min each way",
        "allow 20 min each way for dentist",
        "cancel thursday",
        "sick today",
    ),
    "calendars": (
        "Calendars of others",
        "calendar museum https://museum.example/shifts.ics",
        "calendars",
        "pause calendar museum",
        "remove calendar museum",
        "mark museum shift museum",
        "mark choir minor",
        "mark museum shift 20 min each way",
    ),
    "routines": (
        "Routines",
        "routine exercise 30m every day 7-9",
        "routine cleaning 1h every saturday",
        "done exercise",
        "skip exercise",
        "routines",
        "drop routine cleaning",
        "no target learning",
    ),
    "plan": (
        "The day plan",
        "plan",
        "plan week",
        "accept",
        "later 1",
        "not today 2",
        "swap 2 and 3",
        "18-19 order spokes",
    ),
    "messages": (
        "When I write to you",
        "morning at 6:30",
        "evening 20:30",
        "recap 18:00",
        "waking 7-22",
        "quiet until monday",
    ),
    "settings": (
        "Settings",
        "place Ghent",
        "zone Europe/Brussels",
        "free share 25%",
        "travel 20 min",
        "week starts sunday",
        "pictures dark",
        "decimals comma",
        "12-hour clock",
    ),
    "timesheets": (
        "Timesheets",
        "timesheet museum",
        "timesheet museum last period",
        "timesheet museum files",
        "handed in museum",
    ),
    "jobs": (
        "Jobs and their rules",
        "rate museum 14.50 from 1 march",
        "workshop rounds to 15 min each day",
        "museum break 30 min after 6 h",
        "museum is paid every two weeks from 2 march",
        "workshop is paid monthly from the 21st",
        "payday museum 5 days after",
        "payday reminder on",
        "overtime workshop over 40 h at 1.5",
        "new job bakery, employer Crumb, paid monthly, 9.40 an hour",
        "job museum",
    ),
    "views": (
        "Looking things up",
        "today",
        "week",
        "month",
        "hours last week",
        "recap",
        "year",
        "hours museum",
        "goals",
        "week picture",
        "hours picture last 12 weeks",
        "week page letter",
    ),
}
"""Examples by topic; the first of each is its heading. A test reads every example back."""

GROUPS = (
    ("hours", "clock", "undo", "targets"),
    ("tasks", "push", "goals", "routines", "plan"),
    ("appointments", "calendars"),
    ("views",),
    ("jobs", "timesheets"),
    ("settings", "messages"),
)
"""Every topic, beside those it belongs to. The first of each has a button on the first page, and leads to the others."""

ON_THE_FIRST_PAGE = ("hours", "clock", "tasks", "goals", "appointments", "plan", "views")
"""An example of each is what a day needs; the page fits a phone."""

MEANT = {
    word: topic
    for topic, words in {
        "hours": "hour log logging time times until stint stints",
        "clock": "in out start stop clocking",
        "undo": "redo correct correcting corrections amend edit wrong oops no",
        "tasks": "task todo done close drop reopen closing",
        "push": "pushing carry postpone move",
        "goals": "goal",
        "targets": "target",
        "appointments": "appointment appt meeting shift cancel event events commitment commitments moving",
        "calendars": "calendar mark ics link subscribe",
        "routines": "routine habit",
        "plan": "planning accept later swap",
        "messages": "morning evening recap waking quiet",
        "settings": "setting set place zone holidays category categories",
        "views": "show week month today look views picture pictures page",
        "timesheets": "timesheet",
        "jobs": "job payday pay rate rates overtime rounding break breaks employer",
    }.items()
    for word in words.split()
}
"""The topic that a word asks about, where it is none itself."""

REMARKS = {
    "calendars": "Or send me an .ics file. What you mark holds for all events with these words.",
    "jobs": "What I reckon of pay is an estimate: the employer's record and local law decide.",
    "hours": "“museum until 17” begins where your last hours ended, or as planned; “museum as planned” logs the plan.",
    "clock": "With a break: “out less 30m”. Forgot to stop it? Say when you left.",
    "undo": "As often as needed. Editing your message corrects what it did, too.",
    "push": "Without a day it is tomorrow.",
    "tasks": "With minutes, closing logs them too.",
}


def help_page(reply: Help, manners: Manners) -> Message:
    """Examples on one topic and buttons for those beside it, or a few of what a day needs."""
    page = Page()
    topic = _topic(reply.topic or "")
    if topic:
        heading, *examples = HELP[topic]
        page.heading(heading)
        page.lines([_in_own_words(example, reply, manners) for example in examples])
        page.line(_in_own_words(REMARKS.get(topic, ""), reply, manners))
        return page.message(_leading_to([each for group in GROUPS if topic in group for each in group if each != topic], A_ROW))
    page.heading("Write it as you would say it")
    page.lines([_in_own_words(HELP[each][1], reply, manners) for each in ON_THE_FIRST_PAGE])
    page.line("“undo” takes back the latest; editing a message corrects what it did.")
    page.line("More: tap a button, or write for example “help tasks”.")
    return page.message(_leading_to([group[0] for group in GROUPS], A_ROW_OF_LONG))


def _leading_to(topics: list[str], a_row: int) -> Rows:
    taps = [Tap(topic.capitalize(), Show("help", topic=topic)) for topic in topics]
    return tuple(tuple(taps[at : at + a_row]) for at in range(0, len(taps), a_row))


def _in_own_words(example: str, reply: Help, manners: Manners) -> str:
    """The example by the person's clock, with their own categories in place of ours, over and over where there are fewer."""
    own = {**dict(zip(OUR_JOBS, cycle(reply.jobs), strict=False)), **dict(zip(OUR_OTHERS, cycle(reply.others), strict=False))}
    return OUR_NAMES.sub(lambda found: own.get(found[0], found[0]), manners.example(example))


def _topic(asked: str) -> str | None:
    """The topic that was asked about, by its name or by a word that belongs to it; None for all of them."""
    known = (word if word in HELP else MEANT.get(word) for word in asked.split())
    return next((topic for topic in known if topic is not None), None)
