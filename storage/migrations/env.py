"""How Alembic runs the migrations: on the connection it is handed, within that connection's transaction."""

from __future__ import annotations

from alembic import context

from storage.schema import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
    transaction_per_migration=False,
)
with context.begin_transaction():
    context.run_migrations()
