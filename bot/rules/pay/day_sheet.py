"""One day's work in one job: what was noted, and what of it counts for pay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bot.rules.local_time import elapsed_minutes
from bot.rules.pay.breaks import break_to_take_off
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.rounding import nearest, rounded_punch
from storage.records import Rounded, Rounding, Stint


@dataclass(frozen=True, slots=True)
class Counted:
    """A stint as it was noted, and as it counts: its start and end, its break and its net minutes after rounding each punch."""

    stint: Stint
    starts: datetime | None
    ends: datetime | None
    break_minutes: int
    minutes: int


@dataclass(frozen=True, slots=True)
class DaySheet:
    """A day's stints in one job. ``taken_off`` is the break the employer takes off beyond what was noted.

    ``paid`` is what counts for pay after rounding and breaks.
    """

    day: date
    category_id: int
    stints: tuple[Counted, ...]
    taken_off: int
    paid: int

    @property
    def worked(self) -> int:
        """Exact minutes as they were noted, net of noted breaks."""
        return sum(each.stint.minutes for each in self.stints)

    @property
    def noted_break(self) -> int:
        """Minutes of break that were noted."""
        return sum(each.stint.break_minutes for each in self.stints)


def day_sheet(stints: Sequence[Stint], job: JobRules, zone: str) -> DaySheet:
    """The sheet of one day's ``stints``, at least one, all of one job.

    Each punch is rounded first, then the break by rule is taken off, then the
    day is rounded. Whether a break is due is decided by the exact minutes.
    """
    counted = tuple(_counted(stint, job.rounding, zone) for stint in stints)
    taken_off = break_to_take_off(stints, job.breaks)
    paid = max(0, sum(each.minutes for each in counted) - taken_off)
    if job.rounding and job.rounding.what is Rounded.DAYS:
        paid = nearest(paid, job.rounding.step)
    return DaySheet(stints[0].day, stints[0].category_id, counted, taken_off, paid)


def _counted(stint: Stint, rounding: Rounding | None, zone: str) -> Counted:
    """A break's two punches are not known, nor those of a stint without times: there the length is rounded."""
    if rounding is None or rounding.what is Rounded.DAYS:
        return Counted(stint, stint.starts, stint.ends, stint.break_minutes, stint.minutes)
    off = nearest(stint.break_minutes, rounding.step)
    if stint.starts is None or stint.ends is None:
        return Counted(stint, None, None, off, nearest(stint.minutes, rounding.step))
    starts, ends = (rounded_punch(each, rounding.step, zone) for each in (stint.starts, stint.ends))
    return Counted(stint, starts, ends, off, max(0, elapsed_minutes(starts, ends) - off))
