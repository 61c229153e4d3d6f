"""People who blocked the bot, and since when."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"


def upgrade() -> None:
    """Adds the table."""
    op.create_table(
        "silences",
        sa.Column("person_id", sa.Integer, nullable=False, autoincrement=False),
        sa.Column("since", sa.Text, nullable=False),
        sa.Column("unsent", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("person_id", name="pk_silences"),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_silences_person_id", ondelete="CASCADE"),
    )
