"""Bringing an older file to the newest schema. Imported only when there is one: it loads Alembic."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection

from storage.copying import copy_file, free_name
from storage.errors import Refused
from storage.sqlite import open_engine


def migrate(path: Path, found: str) -> None:
    """Copies the file, whose revision is ``found``, to ``<file>.before-migrating-<found>``, then brings it to the newest.

    Raises Refused when rows would be left without what they name; the file is then as it was.
    """
    copy_file(path, free_name(path, f"before-migrating-{found}"))
    engine = open_engine(path, foreign_keys=False)
    try:
        with engine.begin() as connection:
            upgrade(connection, "head")
    finally:
        engine.dispose()


def upgrade(connection: Connection, target: str) -> None:
    """Runs the migrations up to ``target`` within the connection's transaction, version record and all. Raises Refused.

    A file's connection must have foreign keys off: rebuilding a table with them on would cascade to every row that names it.
    """
    config = configuration()
    config.attributes["connection"] = connection
    command.upgrade(config, target)
    if connection.dialect.name == "sqlite":
        broken = sorted({row[0] for row in connection.exec_driver_sql("PRAGMA foreign_key_check")})
        if broken:
            raise Refused(f"rows name what is not there: {', '.join(broken)}")


def configuration() -> Config:
    """Alembic's settings, without a file: where the migrations are."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    return config
