"""What the person asks to see: a day, a week, a month, hours, goals."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from itertools import groupby

from bot.language.meaning import Show
from bot.rules.load import clashes
from bot.rules.parts import Part, part_of
from bot.rules.weeks import first_of_next_month
from bot.voice.danger_words import caution_lines
from bot.voice.manners import DAYS, Manners, count_text, hours_text, listed, month_text, title_text
from bot.voice.message import Message, Page, Rows, Tap
from bot.voice.plans_said import occurrence_words
from bot.voice.replies import DayView, GoalsView, OpenTasks, PlanLine, TasksView, WeekDay, WeekView
from bot.voice.tasks_said import goal_words, task_words
from bot.voice.weather_words import ATTRIBUTION, weather_line
from storage.records import Goal, Occurrence, Task, TaskState

MOST_LINES = 20
"""Of a day, so that it fits a phone."""

FEWEST_TASKS = 3
MOST_CLASHES = 4
LAST_DAYS = 2
"""Of a week with no more days to come than these, the week after is at hand."""
NO_WEATHER = {
    "no place": "No weather: share your location, or write “place” and your town.",
    "no forecast": "No forecast: the weather service could not be reached.",
}


def day_view(reply: DayView, manners: Manners, answer: str | None = None) -> Message:
    """All that a day holds, perhaps after the answer to what was asked of it; of many tasks as many as fit a phone."""
    page = _day_page(reply, manners, len(reply.tasks) + 1, answer)
    over = len(page) - MOST_LINES
    return page.message() if over <= 0 else _day_page(reply, manners, max(_count_open(reply) - over - 1, FEWEST_TASKS), answer).message()


def _day_page(reply: DayView, manners: Manners, most_tasks: int, answer: str | None) -> Page:
    page = Page()
    page.heading(manners.long_day(reply.day))
    page.lines([answer] if answer else [])
    page.lines(holiday_lines(reply))
    page.lines(weather_lines(reply, manners))
    page.lines(commitment_lines(reply, manners))
    page.lines(caution_lines(reply.cautions, manners))
    page.lines(plan_lines(tuple(line for line in reply.planned if line.number is None), manners))
    if reply.tasks:
        page.gap()
        page.some(open_task_lines(reply.tasks, manners, reply.planned), most_tasks, _tasks_asked(reply.day, manners))
        page.lines(closed_task_lines(reply.tasks))
    page.lines(running_lines(reply.running, manners))
    if reply.spent:
        page.line("Logged: " + ", ".join(f"{title_text(name)} {hours_text(minutes)}" for name, minutes in reply.spent) + ".")
    page.gap()
    page.line(free_line(reply))
    page.lines(attribution_lines(reply))
    return page


def tasks_view(reply: TasksView, manners: Manners) -> Message:
    """All the tasks of a day, however many."""
    page = Page()
    page.heading(f"Tasks of {manners.long_day(reply.day)}")
    page.lines(task_lines(reply.tasks, manners) or ["No task is open."])
    return page.message()


def open_tasks(reply: OpenTasks, manners: Manners) -> Message:
    """The open tasks of several days, one line a day; today's come with the numbers that replies may name."""
    page = Page()
    page.heading("Open tasks" if reply.span is None else f"Open tasks of {manners.days(*reply.span)}")
    by_day = groupby(reply.tasks, key=lambda task: max(task.day, manners.today))
    lines = [_tasks_line(day, tuple(tasks), manners) for day, tasks in by_day]
    page.some(lines or ["No task is open."], MOST_LINES - 2, f"tasks {reply.tasks[-1].day.isoformat()}" if reply.tasks else "")
    return page.message()


def _tasks_line(day: date, tasks: tuple[Task, ...], manners: Manners) -> str:
    numbered = day == manners.today
    words = [f"{task.number} {task_words(task, manners)}" if numbered else task_words(task, manners) for task in tasks]
    near = manners.near_day(day)
    return f"{near[:1].upper()}{near[1:]}: {'; '.join(words)}"


def _count_open(view: DayView) -> int:
    return sum(task.state is TaskState.OPEN for task in view.tasks)


def _tasks_asked(day: date, manners: Manners) -> str:
    """What to write to see all the tasks of the day."""
    return "tasks" if day == manners.today else f"tasks {day.isoformat()}"


def holiday_lines(view: DayView) -> list[str]:
    """The public holiday that the day is, if it is one."""
    return [f"Public holiday: {view.holiday}."] if view.holiday else []


def weather_lines(view: DayView, manners: Manners) -> list[str]:
    """The weather in one line, or why there is none, or nothing where it was not asked for."""
    if view.weather is not None:
        return [weather_line(view.weather, manners)]
    return [NO_WEATHER[view.weather_missing]] if view.weather_missing in NO_WEATHER else []


def attribution_lines(view: DayView) -> list[str]:
    """Whose weather it is, where there is any: CC BY 4.0 asks for it."""
    return [] if view.weather is None else [ATTRIBUTION]


def commitment_lines(view: DayView, manners: Manners) -> list[str]:
    """One line a part of the day that holds something, after what runs in from the day before; all-day ones first."""
    occurrences, before = view.occurrences, [title_text(words) for words in _run_in_words(view.runs_in, manners)]
    if not occurrences:
        return before or ["Nothing fixed."]
    lines = [f"All day: {o.commitment.title}" for o in occurrences if o.commitment.all_day]
    lines += [f"{title_text(part)}: {words}" for part, words in _by_part(occurrences, manners)]
    return [*before, *lines, *(f"At the same time: {pair}." for pair in _clash_words(occurrences))]


def _by_part(occurrences: tuple[Occurrence, ...], manners: Manners) -> list[tuple[Part, str]]:
    """What takes place at a time, for each part of the day that holds some of it."""
    words: dict[Part, list[str]] = {part: [] for part in Part}
    for each in occurrences:
        if not each.commitment.all_day:
            words[part_of(manners.local(each.starts).time())].append(occurrence_words(each, manners))
    return [(part, ", ".join(here)) for part, here in words.items() if here]


def _run_in_words(runs_in: tuple[Occurrence, ...], manners: Manners) -> list[str]:
    """ "until 07:00 night watch", of what began the day before."""
    return [f"until {manners.clock(each.ends)} {each.title}" for each in runs_in]


def _clash_words(occurrences: tuple[Occurrence, ...]) -> list[str]:
    """Two by two what shares time."""
    return [
        f"{one.commitment.title} and {other.commitment.title}"
        for one, other in clashes(o for o in occurrences if o.commitment.blocks_hours)
    ]


def task_lines(tasks: tuple[Task, ...], manners: Manners) -> list[str]:
    """Open tasks by their number, then one line for those that are closed."""
    return [*open_task_lines(tasks, manners), *closed_task_lines(tasks)]


def open_task_lines(tasks: tuple[Task, ...], manners: Manners, planned: tuple[PlanLine, ...] = ()) -> list[str]:
    """One line an open task, by its number, with the hours that are planned for it."""
    hours: dict[int | None, list[str]] = {}
    for line in planned:
        hours.setdefault(line.number, []).append(manners.span(line.starts, line.ends))
    still_open = (task for task in tasks if task.state is TaskState.OPEN)
    return [", ".join((f"{task.number} {task_words(task, manners)}", *hours.get(task.number, ()))) for task in still_open]


def plan_lines(lines: tuple[PlanLine, ...], manners: Manners) -> list[str]:
    """One line a block: its hours, its task's number, its title."""
    return [f"{manners.span(line.starts, line.ends)} {'' if line.number is None else f'{line.number} '}{line.title}" for line in lines]


def closed_task_lines(tasks: tuple[Task, ...]) -> list[str]:
    """One line for those that are closed."""
    closed = [task.title for task in tasks if task.state is TaskState.CLOSED]
    return [f"Closed: {listed(closed)}."] if closed else []


def running_lines(running: tuple[str, datetime] | None, manners: Manners) -> list[str]:
    """That a clock runs, and since when."""
    if running is None:
        return []
    name, since = running
    began = manners.local(since).date()
    day = "" if began == manners.today else f"{manners.near_day(began)} "
    return [f"Clock running: {title_text(name)} since {day}{manners.clock(since)}."]


def free_line(view: DayView, *, all_placed: bool = True) -> str:
    """What the free hours hold: "Free: 5 h; 1 h is kept for what comes up. Tasks need 2 h: they fit."; not where a plan left some out."""
    free = view.free
    if free.minutes == 0:
        return "No free hours."
    line = f"Free: {hours_text(free.minutes)}" + (f"; {hours_text(free.kept)} is kept for what comes up." if free.kept else ".")
    if view.needed_minutes == 0:
        return line
    over = view.needed_minutes - free.to_fill
    if over <= 0 and not all_placed:
        return f"{line} Tasks need {hours_text(view.needed_minutes)}: enough room in all, but not in one piece."
    verdict = "they fit" if over <= 0 else f"{hours_text(over)} too much"
    return f"{line} Tasks need {hours_text(view.needed_minutes)}: {verdict}."


def week_view(reply: WeekView, manners: Manners) -> Message:
    """A week by day and part of day."""
    page = Page()
    page.heading(f"Week of {manners.days(reply.days[0].day, reply.days[-1].day)}")
    page.lines(week_lines(reply, manners))
    goals_of_week(page, reply)
    return page.message(_week_after(reply.days[-1].day) if len(reply.days) <= LAST_DAYS else ())


def _week_after(last: date) -> Rows:
    """A button for the week to come, towards the end of one."""
    return ((Tap("Next week", Show("week", first=last + timedelta(days=1), last=last + timedelta(days=7))),),)


def goals_of_week(page: Page, view: WeekView) -> None:
    """The week's goals in a line below its days, where it has any."""
    if view.goals:
        page.gap()
        page.line("Goals: " + "; ".join(goal_words(goal) for goal in view.goals) + ".")


def week_lines(view: WeekView, manners: Manners) -> list[str]:
    """One line a day with what is fixed by part of day, and the days that hold too much named below; one line for a week that is empty."""
    if not any(day.occurrences or day.runs_in or day.tasks or day.holiday for day in view.days) and len(view.days) > 1:
        return ["Nothing fixed on any day."]
    lines = [_week_day_line(day, manners) for day in view.days]
    full = [day for day in view.days if day.too_many]
    for day in full:
        majors = sum(o.commitment.major for o in day.occurrences)
        lines.append(f"{manners.day(day.day)} has {majors} commitments, a lot for one day.")
    clashing = _clashes_of_week(view, manners)
    more = [f"and {len(clashing) - MOST_CLASHES} more that share time"] if len(clashing) > MOST_CLASHES else []
    return [*lines, *clashing[:MOST_CLASHES], *more]


def _clashes_of_week(view: WeekView, manners: Manners) -> list[str]:
    """What shares time, each pair once: "Wed 4 Mar, at the same time: …", "Mon, Tue and Fri, at the same time: …"."""
    days: dict[str, list[date]] = {}
    for each in view.days:
        for pair in dict.fromkeys(_clash_words(each.occurrences)):
            days.setdefault(pair, []).append(each.day)
    return [f"{_days_words(on, manners)}, at the same time: {pair}." for pair, on in days.items()]


def _days_words(days: list[date], manners: Manners) -> str:
    """ "Wed 4 Mar", or several of one week by their names alone."""
    return manners.day(days[0]) if len(days) == 1 else listed([DAYS[day.weekday()] for day in days])


def _week_day_line(day: WeekDay, manners: Manners) -> str:
    words = _run_in_words(day.runs_in, manners)
    words += [f"{part} {here}" for part, here in _by_part(day.occurrences, manners)]
    words += [f"{o.commitment.title} all day" for o in day.occurrences if o.commitment.all_day]
    if day.tasks:
        words.append(count_text(day.tasks, "task"))
    name = f"{manners.day(day.day)} ({day.holiday})" if day.holiday else manners.day(day.day)
    return f"{name}: {'; '.join(words) if words else 'nothing fixed'}"


def goals_view(reply: GoalsView, manners: Manners) -> Message:
    """Open goals by section."""
    page = Page()
    last = reply.week_starts + timedelta(days=6)
    this_week = reply.week_starts <= manners.today <= last
    this_month = reply.month_starts <= manners.today < first_of_next_month(reply.month_starts)
    week = "this week" if this_week else f"the week of {manners.days(reply.week_starts, last)}"
    month = "this month" if this_month else month_text(reply.month_starts)
    for kind, of_what, goals in (("week", week, reply.week), ("month", month, reply.month)):
        if reply.only in (None, kind):
            page.gap()
            page.heading(f"Goals of {of_what}")
            page.lines(_by_section(goals) or ["Nothing waits."])
    return page.message()


def _by_section(goals: tuple[Goal, ...]) -> list[str]:
    sections = list(dict.fromkeys(goal.section for goal in goals))
    return [f"{title_text(section)}: " + "; ".join(goal_words(g) for g in goals if g.section == section) for section in sections]
