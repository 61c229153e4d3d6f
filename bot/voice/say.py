"""Reply -> words and buttons: the one way to a message."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from bot.language.context import Context
from bot.voice import (
    calendars_said,
    day_asked_said,
    days_off_said,
    earnings_said,
    greeting,
    help_said,
    hours_asked_said,
    hours_said,
    jobs_said,
    pictures_said,
    plan_said,
    plans_said,
    post_said,
    privacy_said,
    recap_said,
    refusals,
    rounds_said,
    settings_said,
    standing_said,
    sums_said,
    tasks_said,
    times_said,
    timesheet_said,
    views_said,
)
from bot.voice import replies as r
from bot.voice.manners import Manners
from bot.voice.message import Message, Rows, fitting, one_line
from bot.voice.questions import acknowledged, not_understood, question, undo_asked

UNWELCOME = "This bot belongs to someone else and does not answer here."

VOICES: dict[type, Callable[[Any, Manners], Message]] = {
    r.Logged: hours_said.logged,
    r.TakenOut: hours_said.taken_out,
    r.HoursClash: hours_asked_said.hours_clash,
    r.NotedAlready: hours_asked_said.noted_already,
    r.DayTooFull: hours_asked_said.day_too_full,
    r.WhichHours: hours_asked_said.which_hours,
    r.StillToCome: hours_asked_said.still_to_come,
    r.ClockedIn: hours_said.clocked_in,
    r.LongClock: hours_said.long_clock,
    r.ClockVoided: hours_said.clock_voided,
    r.AlreadyRunning: hours_said.already_running,
    r.TasksChanged: tasks_said.tasks_changed,
    r.TaskAdded: tasks_said.task_added,
    r.GoalAdded: tasks_said.goal_added,
    r.CommitmentKept: plans_said.commitment_kept,
    r.CommitmentCancelled: plans_said.commitment_cancelled,
    r.OneOrAll: plans_said.one_or_all,
    r.DayOffOffered: days_off_said.day_off_offered,
    r.WhereTo: plans_said.where_to,
    r.WhichToMove: plans_said.which_to_move,
    r.OnOtherDays: plans_said.on_other_days,
    r.ThereAlready: plans_said.there_already,
    r.PlanMade: plan_said.plan_made,
    r.PlanAccepted: plan_said.plan_accepted,
    r.WeekPlanned: plan_said.week_planned,
    r.TravelAllowed: plans_said.travel_allowed,
    r.RoutineAdded: standing_said.routine_added,
    r.RoutineDone: standing_said.routine_done,
    r.RoutineDropped: standing_said.routine_dropped,
    r.RoutinesView: standing_said.routines_view,
    r.TargetKept: standing_said.target_kept,
    r.TargetDropped: standing_said.target_dropped,
    r.SettingKept: settings_said.setting_kept,
    r.PlaceKept: settings_said.place_kept,
    r.PlaceSought: settings_said.place_sought,
    r.PlaceUnknown: settings_said.place_unknown,
    r.SettingsView: settings_said.settings_view,
    r.CategoryAdded: settings_said.category_added,
    r.CategoryDropped: settings_said.category_dropped,
    r.CategoryRenamed: settings_said.category_renamed,
    r.CategoriesKept: settings_said.categories_kept,
    r.JobsKept: settings_said.jobs_kept,
    r.Privacy: privacy_said.privacy,
    r.ErasingAsked: privacy_said.erasing_asked,
    r.Erased: privacy_said.erased,
    r.NothingErased: privacy_said.nothing_erased,
    r.Help: help_said.help_page,
    r.DayView: views_said.day_view,
    r.OpenTasks: views_said.open_tasks,
    r.TasksView: views_said.tasks_view,
    r.WhatsNext: day_asked_said.whats_next,
    r.HowFull: day_asked_said.how_full,
    r.FreeTimes: day_asked_said.free_times,
    r.TimesView: times_said.times_view,
    r.WeekView: views_said.week_view,
    r.MonthView: sums_said.month_view,
    r.HoursView: sums_said.hours_view,
    r.GoalsView: views_said.goals_view,
    r.TimesheetView: timesheet_said.timesheet_view,
    r.EarningsView: earnings_said.earnings_view,
    r.TimesheetFile: timesheet_said.timesheet_file,
    r.PeriodHandedIn: timesheet_said.handed_in,
    r.PaydayEve: timesheet_said.payday_eve,
    r.JobKept: jobs_said.job_kept,
    r.JobsView: jobs_said.jobs_view,
    r.ReminderKept: jobs_said.reminder_kept,
    r.WeekPictured: pictures_said.week_pictured,
    r.HoursPictured: pictures_said.hours_pictured,
    r.ExportMade: pictures_said.export_made,
    r.PageMade: pictures_said.page_made,
    r.MorningMessage: rounds_said.morning,
    r.EveningNudge: rounds_said.evening,
    r.Recap: recap_said.recap,
    r.WeekAhead: recap_said.week_ahead,
    r.MonthRecap: recap_said.month_recap,
    r.CalendarKept: calendars_said.calendar_kept,
    r.CalendarsChanged: calendars_said.calendars_changed,
    r.CalendarSought: calendars_said.calendar_sought,
    r.FileBeingRead: calendars_said.file_being_read,
    r.CalendarUnread: calendars_said.calendar_unread,
    r.CalendarsView: calendars_said.calendars_view,
    r.CalendarChanged: calendars_said.calendar_changed,
    r.EventsMarked: calendars_said.events_marked,
    r.OnlyThere: calendars_said.only_there,
    r.Greeting: greeting.greeting,
    r.BackAgain: post_said.back_again,
    r.Acknowledged: acknowledged,
    r.Refusal: refusals.refusal,
}


MOST_BUTTONS = 99
"""Below a message that tells of several things: the chat platform shows a hundred, and Undo may still come below them."""


def say(reply: r.Reply, manners: Manners, context: Callable[[], Context]) -> Message:
    """The message for ``reply``. ``context`` gives what the person's replies are understood with: choices are worded for it."""
    if isinstance(reply, r.Together):
        said = [(part, say(part, manners, context)) for part in plans_said.warned_once(reply.parts)]
        # A question that follows is nothing that was done, and what made way is part of what came in its place.
        things = [thing for part, message in said for thing in message.things if not isinstance(part, r.Greeting | r.Undone)]
        return _together([message for _, message in said], tuple(things))
    if isinstance(reply, r.Enclosing):
        return say(reply.words, manners, context)
    if isinstance(reply, r.Question):
        return question(reply, manners, context())
    if isinstance(reply, r.NotUnderstood):
        return not_understood(reply, manners, context())
    if isinstance(reply, r.Undone):
        return hours_said.undone(reply, manners)
    if isinstance(reply, r.UndoAsked):
        return undo_asked(reply)
    if isinstance(reply, r.Unwelcome):
        return one_line(UNWELCOME)
    return VOICES[type(reply)](reply, manners)


def _together(messages: list[Message], about: tuple[str, ...]) -> Message:
    text, bold = "", []
    rows: Rows = ()
    for message in messages:
        start = len(text)
        bold += [(first + start, last + start) for first, last in message.bold]
        text += message.text + "\n"
        # Those of the first that fit; what the others would do can still be typed.
        rows += message.buttons if sum(map(len, rows + message.buttons)) <= MOST_BUTTONS else ()
    return fitting(Message(text.rstrip("\n"), tuple(bold), rows, about))
