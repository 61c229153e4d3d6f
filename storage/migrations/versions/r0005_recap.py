"""The day a task was settled, the weather that was told, and indexes that add up hours."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Adds them. A task settled before counts for the day it was meant for: nothing tells the day more exactly."""
    op.add_column("tasks", sa.Column("settled", sa.Text, nullable=True))
    op.execute("UPDATE tasks SET settled = day WHERE state <> 'open'")
    op.create_index("ix_tasks_settled", "tasks", ["person_id", "settled"], **_some("settled IS NOT NULL"))
    op.drop_index("ix_stints_person_id_category_id_day", "stints")
    op.create_index("ix_stints_person_id_category_id_day_minutes", "stints", ["person_id", "category_id", "day", "minutes"])
    columns = ["person_id", "day", "minutes", "task_ids"]
    op.create_index("ix_stints_on_tasks", "stints", columns, **_some("task_ids <> '[]'"))
    op.create_table(
        "told_weather",
        sa.Column("person_id", sa.Integer, nullable=False, autoincrement=False),
        sa.Column("day", sa.Text, nullable=False),
        sa.Column("low", sa.Float, nullable=True),
        sa.Column("high", sa.Float, nullable=True),
        sa.Column("code", sa.Integer, nullable=True),
        sa.Column("wet", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("person_id", "day", name="pk_told_weather"),
        sa.ForeignKeyConstraint(["person_id"], ["people.id"], name="fk_told_weather_person_id", ondelete="CASCADE"),
        sqlite_with_rowid=False,
    )


def _some(which: str) -> dict[str, Any]:
    return {"sqlite_where": sa.text(which), "postgresql_where": sa.text(which)}
