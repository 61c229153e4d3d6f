"""Which kind of database a URL names: the one place where that is decided."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from storage.errors import Unsupported
from storage.kind import Kind
from storage.sqlite_file import SqliteFile

SERVERS = ("postgresql", "postgres")
USUAL_PORT = 5432
"""Source: postgresql.org/docs/current/runtime-config-connection.html, "port"."""


def open_kind(url: str) -> Kind:
    """The database that the URL names, ready to be used. Raises Unsupported, NoDriver and what opening it raises."""
    if not is_server(url):
        return SqliteFile(sqlite_path(url))
    # Its driver is an extra, and takes a while to load.
    from storage.postgresql import PostgresqlServer

    return PostgresqlServer(_parsed(url))


def is_server(url: str) -> bool:
    """Whether the URL names a database on a server. Raises Unsupported for what is no URL."""
    return _parsed(url).get_backend_name() in SERVERS


def sqlite_path(url: str) -> Path:
    """The absolute path of the file that the URL names. Raises Unsupported for any other database, or one in memory."""
    parsed = _parsed(url)
    if parsed.get_backend_name() != "sqlite" or not parsed.database or parsed.database == ":memory:":
        raise Unsupported(parsed.render_as_string())
    return Path(parsed.database).absolute()


def is_the_same(one: str, other: str) -> bool:
    """Whether both URLs name the same database, as far as can be told without opening it. Raises Unsupported."""
    return _which(one) == _which(other)


def _which(url: str) -> object:
    if not is_server(url):
        return sqlite_path(url).resolve()
    parsed = _parsed(url)
    return parsed.host, parsed.port or USUAL_PORT, parsed.database or parsed.username, parsed.query


def password_in(url: str) -> str | None:
    """The password that the URL holds, so that it can be kept out of sight; or None. Raises Unsupported."""
    return _parsed(url).password


def _parsed(url: str) -> URL:
    try:
        return make_url(url)
    except (ArgumentError, ValueError):
        # What SQLAlchemy says of a port that is no number shows it, and a mistyped URL may have its password there.
        raise Unsupported("no SQLAlchemy URL") from None
