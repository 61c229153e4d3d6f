"""An index of the rounds that were missed: those that a clock which ran ahead has made so are looked for when it is right again."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    """Adds it."""
    is_missed = sa.text("state = 'missed'")
    op.create_index("ix_rounds_missed", "rounds", ["due"], sqlite_where=is_missed, postgresql_where=is_missed)
