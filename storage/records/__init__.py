"""The plain values everyone speaks in.

Standard library only. An ``id`` of 0 means "not kept yet". Instants are aware
datetimes in UTC; days and times of day are local to the person's zone;
lengths are whole minutes.
"""

from storage.records.calendars import Calendar, KeptEvent, Marking, Visit
from storage.records.choices import (
    Author,
    DateOrder,
    GoalState,
    Horizon,
    ParcelKind,
    ParcelState,
    PayPeriod,
    RoundKind,
    RoundState,
    Step,
    TaskState,
    Weekday,
)
from storage.records.post import Button, Entry, PairingCode, Parcel, Round, Silence, Tap
from storage.records.week import Block, Category, Commitment, Goal, Job, Occurrence, Person, Routine, Running, Section, Stint, Target, Task

__all__ = [
    "Author",
    "Block",
    "Button",
    "Calendar",
    "Category",
    "Commitment",
    "DateOrder",
    "Entry",
    "Goal",
    "GoalState",
    "Horizon",
    "Job",
    "KeptEvent",
    "Marking",
    "Occurrence",
    "PairingCode",
    "Parcel",
    "ParcelKind",
    "ParcelState",
    "PayPeriod",
    "Person",
    "Round",
    "RoundKind",
    "RoundState",
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
