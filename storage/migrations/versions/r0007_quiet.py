"""Until when a person wants nothing unasked."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0002"


def upgrade() -> None:
    """Adds the day; nobody was quiet before."""
    op.add_column("people", sa.Column("quiet_until", sa.Text, nullable=True))
