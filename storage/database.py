"""The database: where everything starts.

``Database(url)`` opens or makes it and brings it up to date.
``database.desk(person_id, now)`` is one unit of work for one person.
``people``, ``handled``, ``outbox``, ``rounds``, ``pairing`` and ``forecasts``
are what belongs to no single person, each call a transaction of its own.
Their calls that write wait for an open desk to end, so none belongs inside one.
``hold()`` keeps other copies of the program away until ``close()``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from storage.almanac import Holidays, no_holidays
from storage.bringing_in import bring_in
from storage.connections import Connection, Connections
from storage.desk import Desk
from storage.errors import StorageError, Unsupported
from storage.everything import Everything, TableRows
from storage.forecasts import Forecasts
from storage.handled import HandledKeys
from storage.kind import Kind
from storage.moving import copy_everything
from storage.opening import open_kind
from storage.outbox import Post
from storage.pairing import Pairing, spend
from storage.people import People, find, keep_new, load
from storage.records import Person, Round
from storage.revision import bring_up_to_date
from storage.rounds import Due, still_due


class Desks:
    """Desks of one transaction. Made by ``Database.desks`` only."""

    def __init__(self, connection: Connection, holidays: Holidays) -> None:
        self._connection = connection
        self._holidays = holidays
        # Who was read already, and at no desk since.
        self._read: dict[int, Person] = {}

    def person(self, address: str) -> Person | None:
        """Who chats at this address, or None."""
        return self._noted(find(self._connection, address))

    def still_due(self, due: Iterable[Round]) -> tuple[Round, ...]:
        """Those of these rounds that still wait, and whose people are at no other worker's desk; nor will be until the transaction ends."""
        return tuple(each for each in due if self._noted(still_due(self._connection, each.id)))

    @contextmanager
    def desk(self, person_id: int, now: datetime) -> Iterator[Desk]:
        """The next unit of work. Raises NotThere for no such person, and Unjournalled when changes were left without an entry."""
        person = self._read.pop(person_id, None)
        desk = Desk(self._connection, person or load(self._connection, person_id), now, self._holidays)
        yield desk
        desk.journal.demand_written()

    def _noted(self, person: Person | None) -> Person | None:
        if person is not None:
            self._read[person.id] = person
        return person


class Database:
    """An open database. ``holidays`` is what its desks ask for public holidays; there are none unless they are given."""

    def __init__(self, url: str, connections: Callable[[Kind], Connections] = Connections) -> None:
        """Opens the SQLAlchemy ``url``, making or migrating the database as needed; ``connections`` makes its transactions.

        Raises Unsupported, Unreadable, TooNew, Faulty, Locked or NoRoom, for a server also NoDriver, NoServer and TooOld;
        what is not ours is left as it is.
        """
        self.holidays: Holidays = no_holidays
        self._kind = open_kind(url)
        self._connections = connections(self._kind)
        self.people = People(self._connections)
        self.handled = HandledKeys(self._connections)
        self.outbox = Post(self._connections, self._kind.claims)
        self.rounds = Due(self._connections, self._kind.claims)
        self.pairing = Pairing(self._connections)
        self.forecasts = Forecasts(self._connections)
        self.everything = Everything(self._connections, self._kind)
        try:
            bring_up_to_date(self._connections, self._kind)
        except StorageError:
            self._kind.close()
            raise

    @property
    def is_shared(self) -> bool:
        """Whether other workers may be at work on it."""
        return self._kind.claims.shared

    @property
    def path(self) -> Path:
        """Its file. Raises Unsupported where it has none."""
        if not isinstance(self._kind.place, Path):
            raise Unsupported(self._kind.place)
        return self._kind.place

    @contextmanager
    def desk(self, person_id: int, now: datetime) -> Iterator[Desk]:
        """One unit of work: kept whole at the end, or not at all on any exception.

        Raises NotThere for no such person, Locked or NoRoom when it cannot begin or be kept, and Unjournalled when
        changes were left without an entry.
        """
        with self.desks() as desks, desks.desk(person_id, now) as desk:
            yield desk

    @contextmanager
    def desks(self) -> Iterator[Desks]:
        """Several units of work, one after another, in one transaction: kept all of them at the end, or none on any exception.

        Raises Locked or NoRoom when it cannot begin or be kept.
        """
        with self._connections.writing() as connection:
            yield Desks(connection, self.holidays)

    @contextmanager
    def admitting(self, person: Person, now: datetime) -> Iterator[Desk]:
        """A unit of work in which ``person`` is new: kept whole with what they start with, or nobody joined.

        The pairing code is spent with it. Raises as ``desk``, and Refused when the address is taken.
        """
        with self._connections.writing() as connection:
            desk = Desk(connection, load(connection, keep_new(connection, person).id), now, self.holidays)
            spend(connection)
            yield desk
            desk.journal.demand_written()

    def bring_in(self, persons: Iterable[Sequence[TableRows]]) -> None:
        """Writes the rows of every person into this database, all or none. Raises NotEmpty, Malformed and Refused."""
        with self._connections.defining() as connection:
            bring_in(self._kind, connection, persons)

    def copy_into(self, empty: Database) -> Mapping[str, int]:
        """Writes every row of this database, as of one moment, into an empty one, and compares; gives the number of rows by table.

        All of it or nothing. Raises NotEmpty, Refused and Faulty.
        """
        with self._connections.viewing() as outgoing, empty._connections.defining() as incoming:
            return copy_everything(self._kind, outgoing, empty._kind, incoming)

    @contextmanager
    def look(self, person_id: int, now: datetime) -> Iterator[Desk]:
        """A desk to read one moment at, on any thread: it waits for no one, keeps no one waiting, and keeps no change.

        Raises NotThere for no such person.
        """
        with self._connections.reading() as connection:
            yield Desk(connection, load(connection, person_id), now, self.holidays)

    def hold(self, *, shared: bool = False) -> None:
        """Keeps other copies of the program off this database until ``close``. Raises Busy when one runs already.

        On a server, copies that all say ``shared`` may run side by side.
        """
        self._kind.hold(shared=shared)

    def close(self) -> None:
        """Closes it and gives up the hold."""
        self._kind.close()
