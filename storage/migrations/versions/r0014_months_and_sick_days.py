"""On which day of the month a job's monthly pay periods begin, and the days on which a person was sick."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"


def upgrade() -> None:
    """Jobs get a column, those there are keep the calendar's months; adds the table."""
    op.add_column("jobs", sa.Column("month_starts", sa.Integer, nullable=False, server_default="1"))
    op.create_table(
        "sick_days",
        sa.Column("person_id", sa.Integer, nullable=False),
        sa.Column("id", sa.Integer, nullable=False, autoincrement=False),
        sa.Column("day", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("person_id", "id", name="pk_sick_days"),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_sick_days_person_id", ondelete="CASCADE"),
        sa.UniqueConstraint("person_id", "day", name="uq_sick_days_person_id_day"),
        sqlite_with_rowid=False,
    )
