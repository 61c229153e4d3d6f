"""What a parcel encloses, and how a person wants pictures."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Adds three columns. None of the tables is rebuilt, so no row that names one of theirs is touched."""
    op.add_column("parcels", sa.Column("encloses", sa.Text, nullable=True))
    op.add_column("people", sa.Column("look", sa.Text, nullable=False, server_default="light"))
    op.add_column("people", sa.Column("pictures", sa.Integer, nullable=False, server_default=sa.text("1")))
