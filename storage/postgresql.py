"""How a database on a PostgreSQL server is opened. Imported only when a URL asks for it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any, Final

from sqlalchemy import URL, Connection, Engine, ForeignKeyConstraint, Text, create_engine, event
from sqlalchemy.dialects.postgresql.base import PGDDLCompiler, PGTypeCompiler
from sqlalchemy.schema import CreateIndex

from storage.errors import Busy, Faulty, Locked, NoDriver, NoRoom, NoServer, Refused, StorageError, TooOld, Unkeepable, Unreadable
from storage.kind import translated
from storage.revision import known_revision
from storage.schema import NUMBERED, REVISIONS
from storage.session import Session, space

try:
    import psycopg
except ImportError as missing:
    raise NoDriver from missing

OLDEST: Final = 13
"""The oldest version that is tried; older ones get no mends any more (postgresql.org/support/versioning)."""

CONNECT_SECONDS: Final = 10
# A commit outlives a loss of power, whatever the server's own settings say. A lock is waited for as long as for a
# file. Who sleeps in the middle of a transaction, or is cut off, does not keep others out for ever.
SETTINGS: Final = {
    "synchronous_commit": "on",
    "lock_timeout": "10s",
    "idle_in_transaction_session_timeout": "60s",
    "tcp_keepalives_idle": "30",
    "tcp_keepalives_interval": "10",
    "tcp_keepalives_count": "3",
}
TABLES_MADE: Final = "tables"


class PostgresqlServer:
    """The database that ``url`` names. Connects when it is first asked something; raises NoDriver."""

    reading: Mapping[str, Any] = {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}

    def __init__(self, url: URL) -> None:
        self.place = shown(url)
        self.failures = PostgresqlFailures(self.place)
        self.engine = open_server(url, self.failures)
        self.claims = self._session = Session(self.engine, self.place)

    def revision(self) -> str | None:
        """Raises NoServer, TooOld, Unreadable for another program's tables, and TooNew."""
        with self.engine.connect() as connection:
            version = connection.dialect.server_version_info or (0,)
            if version < (OLDEST,):
                raise TooOld(self.place, ".".join(map(str, version)), str(OLDEST))
            return known_revision(connection, self.place)

    def migrate(self, found: str) -> None:
        """All of it in one transaction. The server's own backups are there to go back."""
        from storage.migrating import upgrade

        with self.engine.begin() as connection:
            self.define(connection)
            # Another worker may have done it while this one waited.
            if known_revision(connection, self.place) != REVISIONS[-1]:
                upgrade(connection, "head")

    def define(self, connection: Connection) -> None:
        """A lock by agreement among copies of this program."""
        connection.exec_driver_sql("SELECT pg_advisory_xact_lock(%s, 0)", (space(TABLES_MADE),))

    def defer_references(self, connection: Connection) -> None:
        """Until they are checked."""
        connection.exec_driver_sql("SET CONSTRAINTS ALL DEFERRED")

    def check_references(self, connection: Connection) -> None:
        """What was deferred is checked now."""
        connection.exec_driver_sql("SET CONSTRAINTS ALL IMMEDIATE")

    def last_numbers(self, connection: Connection) -> Mapping[str, int]:
        """Of the sequences that belong to the tables."""
        last = "SELECT coalesce(pg_sequence_last_value(pg_get_serial_sequence(%s, 'id')::regclass), 0)"
        return {each.name: int(connection.exec_driver_sql(last, (each.name,)).scalar_one()) for each in NUMBERED}

    def number_on(self, connection: Connection, last: Mapping[str, int]) -> None:
        """A sequence begins at 1."""
        for table, number in last.items():
            given = (table, max(number, 1), bool(number))
            connection.exec_driver_sql("SELECT setval(pg_get_serial_sequence(%s, 'id'), %s, %s)", given)

    def leave_no_trace(self) -> None:
        """Its files are in the server's hands, which overwrites what was deleted by and by."""

    def hold(self, *, shared: bool) -> None:
        """The server gives it up when the process ends, however it ends."""
        if not self._session.hold(shared=shared):
            raise Busy(self.place)

    def close(self) -> None:
        """Closes the session that holds the claims, too."""
        self._session.close()
        self.engine.dispose()


def shown(url: URL) -> str:
    """What may be shown of the URL: whose and which database it is, and where; no password, nor options that may hold one."""
    user = f"{url.username}@" if url.username else ""
    port = f":{url.port}" if url.port else ""
    return f"postgresql://{user}{url.host or ''}{port}/{url.database or ''}"


def open_server(url: URL, failures: PostgresqlFailures) -> Engine:
    """An engine whose transactions see each statement's own moment, and whose errors are StorageErrors."""
    theirs = url.query.get("options", "")
    options = " ".join((*(f"-c {name}={value}" for name, value in SETTINGS.items()), theirs if isinstance(theirs, str) else ""))
    engine = create_engine(
        url.set(drivername="postgresql+psycopg"),
        # The driver's own form of values by place.
        paramstyle="format",
        isolation_level="READ COMMITTED",
        hide_parameters=True,
        connect_args={"options": options, "connect_timeout": CONNECT_SECONDS, "application_name": "weekwright"},
    )
    engine.dialect.type_compiler_instance = _Types(engine.dialect)
    engine.dialect.ddl_compiler = _Definitions
    event.listen(engine, "handle_error", partial(translated, failures))
    return engine


class _Types(PGTypeCompiler):
    def visit_TEXT(self, type_: Text, **options: Any) -> str:  # noqa: N802
        """Texts are compared by their bytes, as in a file: instants and days are kept as text whose order counts."""
        return f'{super().visit_TEXT(type_, **options)} COLLATE "C"'


class _Definitions(PGDDLCompiler):
    def visit_foreign_key_constraint(self, constraint: ForeignKeyConstraint, **options: Any) -> str:
        """References are checked at once, unless a transaction asks for later: rows that are copied may name later ones."""
        return f"{super().visit_foreign_key_constraint(constraint, **options)} DEFERRABLE"  # type: ignore[no-untyped-call]

    def visit_create_index(self, create: CreateIndex, *others: Any, **options: Any) -> str:
        """An index of some rows only is one of the same rows here."""
        said = create.element.dialect_options
        if (which := said["sqlite"]["where"]) is not None:
            said["postgresql"]["where"] = which
        text: str = super().visit_create_index(create, *others, **options)  # type: ignore[no-untyped-call]
        return text


class PostgresqlFailures:
    """What the driver's errors about the database ``place`` mean."""

    kinds: tuple[type[Exception], ...] = (psycopg.Error, UnicodeEncodeError, OverflowError)

    def __init__(self, place: str) -> None:
        self._place = place

    def meaning(self, error: Exception, parameters: object) -> StorageError:
        """By class and code of SQLSTATE (postgresql.org/docs/current/errcodes-appendix.html); none means that the server is away."""
        if isinstance(error, UnicodeEncodeError):
            return Unkeepable(error.object, "text without lone surrogates")
        if isinstance(error, psycopg.DataError | OverflowError):
            return Unkeepable(parameters, "text without NUL, and numbers of at most 32 bits")
        assert isinstance(error, psycopg.Error)
        if isinstance(error, psycopg.IntegrityError):
            return Refused(error.diag.message_primary or "")
        reason = error.diag.message_primary or _reason(str(error))
        if error.sqlstate is None and isinstance(error, psycopg.OperationalError):
            return NoServer(self._place, reason)
        return _kind_of(error.sqlstate or "")(self._place, reason)


def _kind_of(sqlstate: str) -> type[Locked | NoRoom | NoServer | Unreadable | Faulty]:
    """Of a failure that is no fault of the values."""
    if sqlstate == "53100":
        return NoRoom
    if sqlstate in ("XX001", "XX002"):
        return Unreadable
    # Gone, or going; full of connections; nobody known by that name or password.
    if sqlstate[:2] in ("08", "28", "3D", "57") or sqlstate == "53300":
        return NoServer
    # Deadlocks and the like, and locks waited for in vain: the whole may be tried again.
    return Locked if sqlstate[:2] in ("40", "55") or sqlstate == "25P03" else Faulty


def _reason(text: str) -> str:
    """What a driver that got no connection says in many words: what follows the last "failed:" of its first line."""
    return text.strip().split("\n", 1)[0].rsplit("failed: ", 1)[-1].strip()
