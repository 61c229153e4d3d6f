"""What an action has to tell, as data: one frozen value a thing to say. ``say`` turns them into words."""

from bot.voice.replies.hours import AlreadyRunning, ClockedIn, DayTooFull, HoursClash, Logged, LoggedItem, StillToCome
from bot.voice.replies.plans import (
    CommitmentCancelled,
    CommitmentKept,
    GoalAdded,
    OneOrAll,
    RoutineAdded,
    TargetKept,
    TaskAdded,
    TaskChanged,
    TasksChanged,
)
from bot.voice.replies.reply import NotUnderstood, Question, Refusal, Reply, Together, Undone, Unwelcome
from bot.voice.replies.rounds import EveningNudge, MorningMessage, Recap
from bot.voice.replies.settings import Greeting, Help, PlaceKept, PlaceSought, PlaceUnknown, Privacy, SettingKept, SettingsView
from bot.voice.replies.views import CategoryHours, DayView, FreeHours, GoalsView, HoursView, MonthView, TimesheetView, WeekDay, WeekView

__all__ = [
    "AlreadyRunning",
    "CategoryHours",
    "ClockedIn",
    "CommitmentCancelled",
    "CommitmentKept",
    "DayTooFull",
    "DayView",
    "EveningNudge",
    "FreeHours",
    "GoalAdded",
    "GoalsView",
    "Greeting",
    "Help",
    "HoursClash",
    "HoursView",
    "Logged",
    "LoggedItem",
    "MonthView",
    "MorningMessage",
    "NotUnderstood",
    "OneOrAll",
    "PlaceKept",
    "PlaceSought",
    "PlaceUnknown",
    "Privacy",
    "Question",
    "Recap",
    "Refusal",
    "Reply",
    "RoutineAdded",
    "SettingKept",
    "SettingsView",
    "StillToCome",
    "TargetKept",
    "TaskAdded",
    "TaskChanged",
    "TasksChanged",
    "TimesheetView",
    "Together",
    "Undone",
    "Unwelcome",
    "WeekDay",
    "WeekView",
]
