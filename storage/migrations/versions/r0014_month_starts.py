"""On which day of the month a job's monthly pay periods begin."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"


def upgrade() -> None:
    """Jobs get a column for it; those there are keep the calendar's months."""
    op.add_column("jobs", sa.Column("month_starts", sa.Integer, nullable=False, server_default="1"))
