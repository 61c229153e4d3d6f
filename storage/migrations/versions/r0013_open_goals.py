"""An index of the goals that are open, as there is one of tasks: those that are met, carried or dropped become ever more."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"


def upgrade() -> None:
    """Adds it."""
    is_open = sa.text("state = 'open'")
    op.create_index("ix_goals_open", "goals", ["person_id", "period"], sqlite_where=is_open, postgresql_where=is_open)
