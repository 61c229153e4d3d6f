"""Until when a person wants nothing unasked; who was erased and is still to be taken out of backups."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Adds the day and the table; nobody was quiet before, and nobody who was erased is known."""
    op.add_column("people", sa.Column("quiet_until", sa.Text, nullable=True))
    op.create_table(
        "erased",
        sa.Column("id", sa.Integer, nullable=False, autoincrement=False),
        sa.Column("at", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_erased"),
    )
