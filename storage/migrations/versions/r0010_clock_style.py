"""By which clock people are answered."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    """People get a column for how they write times of day."""
    op.add_column("people", sa.Column("clock_style", sa.Text, nullable=False, server_default="24-hour"))
