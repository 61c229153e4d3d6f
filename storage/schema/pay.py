"""The tables of paid work."""

from __future__ import annotations

from sqlalchemy import Integer, Table, Text, UniqueConstraint

from storage.pay_types import BREAKS, DAYS_HANDED_IN, MONEY, OVERTIME, ROUNDING
from storage.records import PayPeriod, Weekday
from storage.schema.building import check, may, must, names, shelf
from storage.types import Choice, Flag, LocalDay, UtcInstant

# What came later has a default, so that a job the journal remembers from before can be brought back.
jobs = shelf(
    "jobs",
    must("category_id", Integer),
    must("employer", Text),
    must("pay_period", Choice(PayPeriod)),
    may("week_starts", Choice(Weekday)),
    may("anchor", LocalDay),
    may("payday_after", Integer),
    may("rounding", ROUNDING),
    must("breaks", BREAKS, server_default="[]"),
    may("overtime", OVERTIME),
    must("currency", Text, server_default="EUR"),
    must("remind", Flag, server_default="0"),
    must("month_starts", Integer, server_default="1"),
    names("category_id", "categories"),
    UniqueConstraint("person_id", "category_id"),
    check("payday_after", "payday_after >= 0"),
)

job_rates = shelf(
    "job_rates",
    must("job_id", Integer),
    must("since", LocalDay),
    must("per_hour", MONEY),
    names("job_id", "jobs"),
    UniqueConstraint("person_id", "job_id", "since"),
)

handed_in = shelf(
    "handed_in",
    must("job_id", Integer),
    must("first", LocalDay),
    must("last", LocalDay),
    must("at", UtcInstant),
    must("days", DAYS_HANDED_IN),
    may("rounding", ROUNDING),
    must("breaks", BREAKS),
    must("overtime_minutes", Integer),
    may("gross", MONEY),
    must("currency", Text),
    names("job_id", "jobs"),
    UniqueConstraint("person_id", "job_id", "first", "last"),
    check("last", "last >= first"),
)

PAY: tuple[Table, ...] = (jobs, job_rates, handed_in)
"""Those of them whose every change is told by a journal entry and can be undone: all."""
