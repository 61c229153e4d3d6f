"""Which schema a database has, and bringing it to the newest.

A new file gets the tables at once; only an older one needs the migrations,
and only then is Alembic imported: start-up is quick the rest of the time.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Column, MetaData, String, Table, insert, inspect

from storage.connections import Connections
from storage.errors import TooNew, Unreadable
from storage.schema import REVISIONS, metadata
from storage.sqlite import looking_into

# As Alembic makes it, so that a new file and a migrated one are the same.
_version = Table("alembic_version", MetaData(), Column("version_num", String(32), primary_key=True, nullable=False))
_version.primary_key.name = "alembic_version_pkc"


def bring_up_to_date(connections: Connections, path: Path) -> None:
    """Makes the tables of a new file, or migrates an older one after copying it. Raises Unreadable, TooNew, StorageError."""
    found = revision_of(path)
    if found is None:
        _make_tables(connections)
    elif found != REVISIONS[-1]:
        from storage.migrating import migrate

        migrate(path, found)


def revision_of(path: Path) -> str | None:
    """The schema revision of the file, or None when it has no tables yet.

    Raises Unreadable for a file that is no database or another program's, TooNew for a revision unknown here.
    """
    with looking_into(path) as connection:
        tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
        if not tables:
            return None
        found = connection.execute("SELECT version_num FROM alembic_version").fetchone() if _version.name in tables else None
    if found is None:
        raise Unreadable(path, "holds the tables of another program")
    if found[0] not in REVISIONS:
        raise TooNew(path, found[0])
    return str(found[0])


def _make_tables(connections: Connections) -> None:
    with connections.defining() as connection:
        # Another process may have made them while this one waited for its turn to write.
        if not inspect(connection).has_table(_version.name):
            metadata.create_all(connection, checkfirst=False)
            _version.create(connection)
            connection.execute(insert(_version).values(version_num=REVISIONS[-1]))
