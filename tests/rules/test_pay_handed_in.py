from __future__ import annotations

from datetime import timedelta

from bot.rules.pay.handed_in import ChangedDay, changed_since, days_of
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.timesheet import Timesheet, timesheet
from storage.records import DayHandedIn, Stint
from tests.rules.made import BRUSSELS, MONDAY, stint

WORKSHOP = 1
TUESDAY, SUNDAY = MONDAY + timedelta(days=1), MONDAY + timedelta(days=6)


def sheet(*stints: Stint) -> Timesheet:
    return timesheet(JobRules(WORKSHOP, "workshop", "Rolling Spoke"), MONDAY, SUNDAY, stints, BRUSSELS)


def test_a_period_that_is_as_it_was_handed_in_has_no_changes() -> None:
    first = sheet(stint(WORKSHOP, MONDAY, 60), stint(WORKSHOP, TUESDAY, 90))

    assert changed_since(days_of(first.days), sheet(stint(WORKSHOP, TUESDAY, 90), stint(WORKSHOP, MONDAY, 60)).days) == ()


def test_longer_new_and_vanished_days_are_listed_in_order() -> None:
    first = sheet(stint(WORKSHOP, MONDAY, 60), stint(WORKSHOP, TUESDAY, 90))
    later = sheet(stint(WORKSHOP, MONDAY, 75), stint(WORKSHOP, SUNDAY, 30))

    assert changed_since(days_of(first.days), later.days) == (
        ChangedDay(MONDAY, DayHandedIn(MONDAY, 60, 60), DayHandedIn(MONDAY, 75, 75)),
        ChangedDay(TUESDAY, DayHandedIn(TUESDAY, 90, 90), None),
        ChangedDay(SUNDAY, None, DayHandedIn(SUNDAY, 30, 30)),
    )
