"""An index of the tasks that are open: a day asks for all of them, and those that are settled become ever more."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"


def upgrade() -> None:
    """Adds it."""
    is_open = sa.text("state = 'open'")
    op.create_index("ix_tasks_open", "tasks", ["person_id", "day"], sqlite_where=is_open, postgresql_where=is_open)
