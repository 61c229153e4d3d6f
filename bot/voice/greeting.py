"""The first conversation: five steps and a closing word, each with a default on a button."""

from __future__ import annotations

from bot.language.meaning import Set, Show
from bot.voice.manners import Manners, listed, title_text
from bot.voice.message import Message, Page, Tap
from bot.voice.replies import Greeting
from storage.records import Person, Step

SKIP = "step"
"""The setting that a step's button sets: the step that comes next."""


HINTS = {
    Step.PLACE: "Share your location, or write your town or time zone.",
    Step.WAKING: "Write other hours like 7-22.",
    Step.CATEGORIES: "Write your own instead, with commas: choir, garden.",
    Step.JOBS: "Write others by name.",
    Step.TIMES: "Write other times like 6:30 and 20:30.",
}


NO_JOBS_YET = "Write their names, or “none”."


def greeting(reply: Greeting, manners: Manners) -> Message:
    """One question with its default on a button."""
    page = Page()
    if reply.person.step is Step.PLACE and not reply.again:
        page.heading("Weekwright keeps your week")
        page.line("Five short questions; every one can wait, and you can write to me at any point in between.")
        page.gap()
    page.lines(_question(reply, manners))
    return page.message(_rows(reply.person))


def _question(reply: Greeting, manners: Manners) -> list[str]:
    step = reply.person.step
    if step is Step.DONE:
        appointment = manners.example("appt tomorrow 15:00 dentist")
        return ["That is all. Write as you would say it:", _hours_example(reply), "task call the glazier", appointment]
    return [_asked(reply, manners), NO_JOBS_YET if step is Step.JOBS and not reply.jobs else manners.example(HINTS[step])]


def _asked(reply: Greeting, manners: Manners) -> str:
    """The question of the step, with what holds as long as nothing else is said."""
    person = reply.person
    return {
        Step.PLACE: f"Where are you? I have {f'{person.place_name}, ' if person.place_name else ''}{person.zone}.",
        Step.WAKING: f"When are you up? I have {manners.times(person.waking_start, person.waking_end)}.",
        Step.CATEGORIES: f"What do your hours go to? I have {_titles(reply.categories)}.",
        Step.JOBS: f"Which of them are paid jobs? I have {_titles(reply.jobs) if reply.jobs else 'none'}.",
        Step.TIMES: f"When shall I write? I have {manners.time_of_day(person.morning_at)} in the morning "
        f"and {manners.time_of_day(person.evening_at)} in the evening.",
    }[person.step]


def _hours_example(reply: Greeting) -> str:
    """Hours as they may be typed, of a job and of something else where there is either."""
    job, other = (*reply.jobs, *reply.categories)[0], next((name for name in reply.categories if name not in reply.jobs), None)
    return f"3h {job}, 1h {other}" if other and other != job else f"3h {job}"


def _titles(names: tuple[str, ...]) -> str:
    return listed([title_text(name) for name in names])


def _rows(person: Person) -> tuple[tuple[Tap, ...], ...]:
    if person.step is Step.DONE:
        return ((Tap("Today", Show("day")), Tap("Week", Show("week")), Tap("Help", Show("help"))),)
    return ((Tap("Keep this", Set(SKIP, _after(person.step).value)), Tap("Skip the rest", Set(SKIP, Step.DONE.value))),)


def _after(step: Step) -> Step:
    steps = list(Step)
    return steps[steps.index(step) + 1]
