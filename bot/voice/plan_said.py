"""The plan of a day or a week, to accept or to change."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import groupby

from bot.language.meaning import Push
from bot.language.pick import Pick
from bot.language.plan_meaning import AcceptPlan, MakePlan
from bot.rules.planning.remedies import FillMore, InTheWet, MoreTime, OutsideWindow, Remedy, Splitting, Without
from bot.voice.manners import Manners, count_text, hours_text, listed
from bot.voice.message import Message, Page, Rows, Tap, clipped
from bot.voice.replies import LeftOut, PlanAccepted, PlanMade, WeekPlanned, WeekShort
from bot.voice.views_said import LAST_DAYS, plan_lines

MOST_LEFT_OUT = 3
ONE_HOUR = 60


def plan_made(reply: PlanMade, manners: Manners) -> Message:
    """The plan as hours, what found none, and a button to accept it; one to plan again where it is empty."""
    page = Page()
    page.heading(f"Plan for {manners.near_day(reply.day)}")
    page.lines(plan_lines(reply.lines, manners) or ["Nothing to plan."])
    page.lines(left_out_lines(reply.left_out, manners))
    page.lines(ratio_lines(reply.ratios, manners))
    page.lines(doubt_lines(proven=reply.proven))
    # The button of an empty plan also keeps which day it was for, so that no other day's plan is accepted in its place.
    again = () if reply.lines else ((Tap("Plan again", MakePlan("day", reply.day)),),)
    return page.message((*again, *plan_rows(reply, manners)))


def plan_rows(reply: PlanMade, manners: Manners) -> Rows:
    """The button that accepts the plan, where there is one, and one for each task that goes to a day with room for it."""
    accept = ((Tap("Accept the plan", AcceptPlan(reply.day)),),) if reply.lines else ()
    return (*accept, *push_rows(reply, manners))


def push_rows(reply: PlanMade, manners: Manners) -> Rows:
    """A button for each task that found no hours and goes to a day with room for it."""
    return tuple(
        (Tap(f"Push {clipped(each.title, 20)} to {manners.day(each.day)}", Push(Pick(ids=(each.task_id,)), each.day)),)
        for each in reply.left_out[:MOST_LEFT_OUT]
        if each.task_id is not None and each.day is not None
    )


def left_out_lines(left_out: tuple[LeftOut, ...], manners: Manners, most: int = MOST_LEFT_OUT) -> list[str]:
    """What found no hours, and the first thing that would make it fit, once for all alike; of more than ``most`` how many more."""
    alike: dict[tuple[Remedy | None, date | None, int], list[LeftOut]] = {}
    for number, each in enumerate(left_out[:most]):
        remedy = each.remedies[0] if each.remedies else None
        alike.setdefault((remedy, each.day, 0 if isinstance(remedy, FillMore) else number), []).append(each)
    lines = [_left_out_line(remedy, day, some, manners) for (remedy, day, _), some in alike.items()]
    if len(left_out) > most:
        lines.append(f"and {len(left_out) - most} more without hours")
    return lines


def _left_out_line(remedy: Remedy | None, day: date | None, some: list[LeftOut], manners: Manners) -> str:
    """What found no hours for the same reason."""
    it = "it" if len(some) == 1 else "each"
    titles = listed([f"{each.title} ({hours_text(each.minutes)})" for each in some])
    would = f": {_remedy_words(remedy, manners, it)}" if remedy else ""
    return f"No hours for {titles}{would}." + (f" {manners.day(day)} has room for {it}." if day else "")


def _remedy_words(remedy: Remedy, manners: Manners, it: str = "it") -> str:
    if isinstance(remedy, OutsideWindow):
        return f"it would fit at {manners.clock(remedy.starts)}, outside its window"
    if isinstance(remedy, InTheWet):
        return f"it would fit at {manners.clock(remedy.starts)}, when it is likely wet"
    if isinstance(remedy, Splitting):
        return f"it would fit in {count_text(remedy.pieces, 'piece')}"
    if isinstance(remedy, FillMore):
        return f"{it} would fit if {hours_text(remedy.minutes)} less were kept for what comes up"
    if isinstance(remedy, Without):
        return f"it would fit without {remedy.key}"
    assert isinstance(remedy, MoreTime)
    return f"{hours_text(remedy.minutes)} {'is' if remedy.minutes == ONE_HOUR else 'are'} missing"


def ratio_lines(ratios: tuple[tuple[str, float], ...], manners: Manners) -> list[str]:
    """How estimates were corrected by what such tasks took before."""
    return [f"For {name} you usually need {manners.ratio(ratio)} times your estimate; the plan allows for that." for name, ratio in ratios]


def doubt_lines(*, proven: bool) -> list[str]:
    """That there may be a better plan, where the search for it was given up."""
    return [] if proven else ["A good plan; with so much to place I stopped looking for a better one."]


def plan_accepted(reply: PlanAccepted, manners: Manners) -> Message:
    """The plan as it stands now."""
    page = Page()
    if reply.pushed:
        page.line(f"Pushed to tomorrow: {listed(list(reply.pushed))}.")
    if reply.skipped:
        page.line(f"Left out today: {listed(list(reply.skipped))}.")
    if reply.anew:
        page.line("Some of those hours are past, so I planned what is left of the day.")
    page.line(f"Your plan for {manners.near_day(reply.day)}:")
    page.lines(plan_lines(reply.lines, manners) or ["Nothing planned."])
    page.lines(left_out_lines(reply.left_out, manners))
    return page.message()


def _why_short(short: WeekShort, manners: Manners) -> str:
    if short.at_most:
        return ", as more would be over what you want at most"
    if short.remedy is None or isinstance(short.remedy, MoreTime):
        return ", as the days are full"
    return f": {_remedy_words(short.remedy, manners)}"


def week_planned(reply: WeekPlanned, manners: Manners) -> Message:
    """The goals by day, and what the week does not hold; of one that is nearly over, a button for the next."""
    page = Page()
    page.heading(f"Plan for {manners.days(reply.first, reply.last)}")
    for day, shares in groupby(reply.shares, key=lambda share: share.day):
        page.line(f"{manners.day(day)}: " + ", ".join(f"{share.title} ({hours_text(share.minutes)})" for share in shares))
    if not reply.shares:
        placed = "The goals have all their hours already, done or as tasks" if reply.all_placed else "No open goal has an estimate"
        page.line(f"{placed}, so there is nothing to plan.")
    for short in reply.short:
        page.line(f"No room for {hours_text(short.minutes)} of {short.title}{_why_short(short, manners)}.")
    page.lines(doubt_lines(proven=reply.proven))
    for title, minutes in reply.over:
        page.line(f"{title} already has {hours_text(minutes)} more than you want at most.")
    nearly_over = (reply.last - manners.today).days < LAST_DAYS
    next_week = ((Tap("Plan next week", MakePlan("week", reply.last + timedelta(days=1))),),) if nearly_over else ()
    day = max(reply.first, manners.today)
    return page.message((*(((Tap(f"Plan {manners.near_day(day)}", MakePlan("day", day)),),) if reply.shares else ()), *next_week))
