"""How long getting to commitments and back takes: said of one, of those with some words, or usual for the person. Files that wait."""

from __future__ import annotations

from typing import Any, Literal

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    """Adds the minutes before and after to commitments and marks, those that are usual to people, and a table of files."""
    _add("people", {"sqlite_autoincrement": True}, sa.Column("travel_minutes", sa.Integer, nullable=False, server_default="0"))
    for table in ("commitments", "marks"):
        columns = [sa.Column(name, sa.Integer, nullable=True) for name in ("minutes_before", "minutes_after")]
        _add(table, {"sqlite_with_rowid": False}, *columns)
    _make_room_for_files()


def _make_room_for_files() -> None:
    op.create_table(
        "sent_files",
        sa.Column("person_id", sa.Integer, nullable=False),
        sa.Column("key", sa.Text, nullable=False),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("content", sa.LargeBinary, nullable=False),
        sa.PrimaryKeyConstraint("person_id", "key", name="pk_sent_files"),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_sent_files_person_id", ondelete="CASCADE"),
    )


def _add(table: str, numbering: dict[str, Any], *columns: sa.Column[Any]) -> None:
    """SQLite's own way of adding a column would leave tables that read differently from new ones, so they are built anew."""
    alone = {"resolve_fks": False}
    anew: Literal["always", "never"] = "always" if op.get_context().dialect.name == "sqlite" else "never"
    with op.batch_alter_table(table, recreate=anew, reflect_kwargs=alone, table_kwargs=numbering) as rebuilt:
        for column in columns:
            rebuilt.add_column(column)
