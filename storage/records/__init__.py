"""The plain values everyone speaks in.

Standard library only. An ``id`` of 0 means "not kept yet". Instants are aware
datetimes in UTC; days and times of day are local to the person's zone;
lengths are whole minutes.
"""

from storage.records.calendars import Calendar, KeptEvent, Marking, Visit
from storage.records.choices import (
    Author,
    DateOrder,
    DecimalMark,
    GoalState,
    Horizon,
    Look,
    ParcelKind,
    ParcelState,
    PayPeriod,
    Rounded,
    RoundingStep,
    RoundKind,
    RoundState,
    Step,
    TaskState,
    Weekday,
)
from storage.records.pay import BreakRule, DayHandedIn, HandedIn, Job, JobRate, Limit, OvertimeRules, Rounding
from storage.records.post import Button, Entry, PairingCode, Parcel, Round, Silence, Tap
from storage.records.week import Block, Category, Commitment, Goal, Occurrence, Person, Routine, Running, Section, Stint, Target, Task

__all__ = [
    "Author",
    "Block",
    "BreakRule",
    "Button",
    "Calendar",
    "Category",
    "Commitment",
    "DateOrder",
    "DayHandedIn",
    "DecimalMark",
    "Entry",
    "Goal",
    "GoalState",
    "HandedIn",
    "Horizon",
    "Job",
    "JobRate",
    "KeptEvent",
    "Limit",
    "Look",
    "Marking",
    "Occurrence",
    "OvertimeRules",
    "PairingCode",
    "Parcel",
    "ParcelKind",
    "ParcelState",
    "PayPeriod",
    "Person",
    "Round",
    "RoundKind",
    "RoundState",
    "Rounded",
    "Rounding",
    "RoundingStep",
    "Routine",
    "Running",
    "Section",
    "Silence",
    "Step",
    "Stint",
    "Tap",
    "Target",
    "Task",
    "TaskState",
    "Visit",
    "Weekday",
]
