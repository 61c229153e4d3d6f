"""Whether a message says that what the person wanted was not done."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"


def upgrade() -> None:
    """Parcels get a column for it; of those that were written before, nobody asks any more."""
    op.add_column("parcels", sa.Column("refuses", sa.Integer, nullable=False, server_default="0"))
