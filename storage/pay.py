"""Jobs, what their hours pay, and the periods that were handed in."""

from __future__ import annotations

from datetime import date

from sqlalchemy import bindparam

from storage.forms import HANDED_IN, JOB_RATES
from storage.records import HandedIn, Job, JobRate
from storage.schema import handed_in, job_rates
from storage.shelf import Shelf

_RATES_OF = JOB_RATES.mine(job_rates.c.job_id == bindparam("job_id"), order=(job_rates.c.since,))
_HANDED_IN_OF = HANDED_IN.mine(handed_in.c.job_id == bindparam("job_id"), order=(handed_in.c.first,))
_HANDED_IN_SINCE = HANDED_IN.mine(
    handed_in.c.job_id == bindparam("job_id"), handed_in.c.last >= bindparam("since"), order=(handed_in.c.first,)
)
_HANDED_IN_FOR = HANDED_IN.mine(
    handed_in.c.job_id == bindparam("job_id"), handed_in.c.first == bindparam("first_day"), handed_in.c.last == bindparam("last_day")
)
_HANDED_IN_ON = HANDED_IN.mine(
    handed_in.c.first <= bindparam("last_day"), handed_in.c.last >= bindparam("first_day"), order=(handed_in.c.first,)
)


class Jobs(Shelf[Job]):
    """The person's paid work."""

    def of_category(self, category_id: int) -> Job | None:
        """The job that this category is, or None."""
        return next((each for each in self.all() if each.category_id == category_id), None)


class JobRates(Shelf[JobRate]):
    """What hours pay, by the day from which it holds."""

    def of(self, job_id: int) -> tuple[JobRate, ...]:
        """A job's rates, the earliest first."""
        return self.many(_RATES_OF, job_id=job_id)


class HandedInPeriods(Shelf[HandedIn]):
    """The periods that were handed in, as they were then."""

    def of(self, job_id: int) -> tuple[HandedIn, ...]:
        """A job's, the earliest first."""
        return self.many(_HANDED_IN_OF, job_id=job_id)

    def since(self, job_id: int, day: date) -> tuple[HandedIn, ...]:
        """A job's that end on ``day`` or later, the earliest first."""
        return self.many(_HANDED_IN_SINCE, job_id=job_id, since=day)

    def exactly(self, job_id: int, first: date, last: date) -> HandedIn | None:
        """A job's of just these days, or None."""
        return self.first(_HANDED_IN_FOR, job_id=job_id, first_day=first, last_day=last)

    def touching(self, first: date, last: date) -> tuple[HandedIn, ...]:
        """Those of all jobs that hold a day from ``first`` to ``last``, both included."""
        return self.many(_HANDED_IN_ON, first_day=first, last_day=last)
