"""Meaning + Desk -> Reply: which action takes which meaning."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from bot.actions.accepting import accept_plan
from bot.actions.as_planned import as_planned
from bot.actions.breaks_told import tell_hours
from bot.actions.calendars import add_calendar, change_calendar, mark_events
from bot.actions.calling_off import call_off
from bot.actions.clock import clock_in, clock_out
from bot.actions.correcting import correct
from bot.actions.day_plan import make_plan
from bot.actions.days_off import day_off
from bot.actions.goals import add_goal
from bot.actions.job_rules import (
    new_job,
    remind_payday,
    set_break,
    set_job_word,
    set_overtime,
    set_pay_period,
    set_payday,
    set_rate,
    set_rounding,
)
from bot.actions.lengths import LONGEST, is_too_long
from bot.actions.moving import add_or_move, move, told_apart
from bot.actions.own_categories import drop_category, rename_category
from bot.actions.refused import Stopped, refused
from bot.actions.routines import add_routine, drop_routine, drop_target, set_target
from bot.actions.same_hours import same_hours
from bot.actions.setting import keep_setting
from bot.actions.shifting import later, not_today, place, swap
from bot.actions.taking_out import take_out
from bot.actions.taking_place import take_place
from bot.actions.tasks import add_task, close, drop, push, reopen
from bot.actions.timesheets import hand_in, send_timesheet
from bot.actions.today import local_now
from bot.actions.travel import allow_travel
from bot.actions.undoing import make_way, undo
from bot.actions.views import show
from bot.actions.welcome import to_step
from bot.language import calendar_meaning as c
from bot.language import meaning as m
from bot.language import pay_meaning as p
from bot.language import plan_meaning as plan
from bot.language import standing_meaning as s
from bot.rules.parts import part_of
from bot.voice.greeting import SKIP
from bot.voice.replies import Acknowledged, NotUnderstood, Question, Reply, Together
from storage.desk import Desk

ACTIONS: dict[type, Callable[[Desk, Any], Reply]] = {
    m.Log: tell_hours,
    m.Amend: correct,
    m.TakeOut: take_out,
    m.ClockIn: clock_in,
    m.ClockOut: clock_out,
    m.Close: close,
    m.Drop: drop,
    m.Reopen: reopen,
    m.Push: push,
    m.AddTask: add_task,
    m.AddGoal: add_goal,
    m.AddCommitment: add_or_move,
    m.Move: move,
    m.Cancel: call_off,
    m.AddRoutine: add_routine,
    m.SetTarget: set_target,
    s.TakesPlace: take_place,
    s.AllowTravel: allow_travel,
    s.DropRoutine: drop_routine,
    s.DropTarget: drop_target,
    s.DropCategory: drop_category,
    s.RenameCategory: rename_category,
    plan.AsPlanned: as_planned,
    plan.SameHours: same_hours,
    plan.MakePlan: make_plan,
    plan.AcceptPlan: accept_plan,
    plan.Later: later,
    plan.NotToday: not_today,
    plan.Swap: swap,
    plan.Place: place,
    plan.DayOff: day_off,
    c.AddCalendar: add_calendar,
    c.ChangeCalendar: change_calendar,
    c.MarkEvents: mark_events,
    p.NewJob: new_job,
    p.SetRate: set_rate,
    p.SetRounding: set_rounding,
    p.SetBreak: set_break,
    p.SetPayPeriod: set_pay_period,
    p.SetPayday: set_payday,
    p.SetOvertime: set_overtime,
    p.SetJobWord: set_job_word,
    p.RemindPayday: remind_payday,
    p.HandIn: hand_in,
    p.SendTimesheet: send_timesheet,
    m.Show: show,
    m.Set: keep_setting,
}


def act(desk: Desk, meaning: m.Meaning, *, text: str = "", heard_key: str | None = None) -> Reply:
    """Does what ``meaning`` says and tells what was done. What cannot be done changes nothing and says why."""
    if isinstance(meaning, m.Several) and _making_way(meaning) is None:
        return Together(tuple(act(desk, part, text=text, heard_key=heard_key) for part in told_apart(meaning.parts)))
    try:
        with desk.attempt():
            return act_or_stop(desk, meaning, text=text, heard_key=heard_key)
    except Stopped as stopped:
        return stopped.reply


def act_or_stop(desk: Desk, meaning: m.Meaning, *, text: str = "", heard_key: str | None = None) -> Reply:
    """As ``act``, but raises Stopped when something cannot be done."""
    if isinstance(meaning, m.Several):
        undone = _making_way(meaning)
        way, parts = ((), meaning.parts) if undone is None else (make_way(desk, undone), meaning.parts[1:])
        return Together((*way, *(act_or_stop(desk, part, text=text, heard_key=heard_key) for part in told_apart(parts))))
    if isinstance(meaning, m.Ask):
        return Question(meaning.choices)
    if isinstance(meaning, m.Unknown):
        return Acknowledged(meaning.courtesy, part_of(local_now(desk).time())) if meaning.courtesy else NotUnderstood(text, meaning.near)
    if is_too_long(meaning):
        raise refused("too long a name", str(LONGEST))
    if isinstance(meaning, m.Undo):
        return undo(desk, meaning, heard_key)
    if isinstance(meaning, m.Set) and meaning.name == SKIP:
        return to_step(desk, meaning.value)
    return ACTIONS[type(meaning)](desk, meaning)


def _making_way(several: m.Several) -> m.Undo | None:
    """The undo that the parts begin with, where others come in the place of what it takes back: all of it is one change then."""
    first, *rest = several.parts
    return first if isinstance(first, m.Undo) and all(isinstance(each, m.AddCommitment | p.HandIn) for each in rest) else None
