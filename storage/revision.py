"""Which schema a database has, and bringing it to the newest.

A new file gets the tables at once; only an older one needs the migrations,
and only then is Alembic imported: start-up is quick the rest of the time.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Column, Connection, MetaData, String, Table, insert, inspect, select

from storage.connections import Connections
from storage.errors import TooNew, Unreadable
from storage.kind import Kind, Place
from storage.schema import REVISIONS, metadata
from storage.sqlite import looking_into

# As Alembic makes it, so that a new file and a migrated one are the same.
_version = Table("alembic_version", MetaData(), Column("version_num", String(32), primary_key=True, nullable=False))
_version.primary_key.name = "alembic_version_pkc"


def bring_up_to_date(connections: Connections, kind: Kind) -> None:
    """Makes the tables of a new database, or migrates an older one. Raises Unreadable, TooNew, StorageError."""
    found = kind.revision()
    if found is None:
        _make_tables(connections)
    elif found != REVISIONS[-1]:
        kind.migrate(found)


def revision_of(path: Path) -> str | None:
    """The schema revision of the file, or None when it has no tables yet.

    Raises Unreadable for a file that is no database or another program's, TooNew for a revision unknown here.
    """
    with looking_into(path) as connection:
        tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
        if not tables:
            return None
        found = connection.execute("SELECT version_num FROM alembic_version").fetchone() if _version.name in tables else None
    return _known(None if found is None else found[0], path)


def known_revision(connection: Connection, place: Place) -> str | None:
    """The same of a database that is connected to."""
    tables = inspect(connection).get_table_names()
    if not tables:
        return None
    found = connection.execute(select(_version.c.version_num)).scalar() if _version.name in tables else None
    return _known(found, place)


def _known(found: str | None, place: Place) -> str:
    if found is None:
        raise Unreadable(place, "holds the tables of another program")
    if found not in REVISIONS:
        raise TooNew(place, found)
    return found


def _make_tables(connections: Connections) -> None:
    with connections.defining() as connection:
        # Another process may have made them while this one waited for its turn to write.
        if not inspect(connection).has_table(_version.name):
            metadata.create_all(connection, checkfirst=False)
            _version.create(connection)
            connection.execute(insert(_version).values(version_num=REVISIONS[-1]))
