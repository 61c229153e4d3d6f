"""People: who chats, and where."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sqlalchemy import bindparam, insert, select

from storage.connections import Connection, Connections
from storage.errors import NotThere
from storage.forms import PEOPLE
from storage.journal import Journal
from storage.plain import Change
from storage.records import Person, Place
from storage.schema import people

_ALL = PEOPLE.anyones().order_by(people.c.id)
_BY_ID = PEOPLE.anyones(people.c.id == bindparam("id"))
# Updates of one person come one after another, also where several workers hear them. A file knows no locks of rows, and needs none.
_BY_ID_ALONE = _BY_ID.with_for_update(key_share=True)
_PLACE = select(people.c.latitude, people.c.longitude).where(people.c.id == bindparam("id"), people.c.latitude.is_not(None))
_BY_ADDRESS = PEOPLE.anyones(people.c.address == bindparam("address"))
_ZONES_WITH_HOLIDAYS = select(people.c.zone).where(people.c.holidays == bindparam("shown")).distinct()
_BY_ADDRESS_ALONE = _BY_ADDRESS.with_for_update(key_share=True)
_ADMIT = insert(people).returning(people.c.id)


class People:
    """All people, each call a transaction of its own."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections

    def find(self, address: str) -> Person | None:
        """Who chats at this address, or None."""
        with self._connections.reading() as connection:
            return find(connection, address)

    def get(self, id: int) -> Person:
        """The person with this id. Raises NotThere."""
        with self._connections.reading() as connection:
            return load(connection, id)

    def places(self, ids: Iterable[int]) -> frozenset[Place]:
        """Where the people of these ids are, as far as they said."""
        with self._connections.reading() as connection:
            return frozenset((place[0], place[1]) for id in ids for place in connection.execute(_PLACE, {"id": id}))

    def all(self) -> tuple[Person, ...]:
        """Everyone, in the order they joined."""
        with self._connections.reading() as connection:
            return tuple(map(PEOPLE.record, connection.execute(_ALL)))

    def zones_with_holidays(self) -> frozenset[str]:
        """The zones of those who are shown public holidays."""
        with self._connections.reading() as connection:
            return frozenset(zone for (zone,) in connection.execute(_ZONES_WITH_HOLIDAYS, {"shown": True}))

    def admit(self, person: Person) -> Person:
        """Keeps a new person and gives them with their id. Raises Refused when the address is taken."""
        with self._connections.writing() as connection:
            return keep_new(connection, person)


class Self:
    """The one person of a unit of work, always as the database has them."""

    def __init__(self, connection: Connection, person: Person, journal: Journal) -> None:
        self._connection = connection
        self._rows = journal.rows
        self._person = person
        self._version = self._rows.versions[PEOPLE.name]

    @property
    def person(self) -> Person:
        """The person, read again after a change or an undo wrote their row."""
        version = self._rows.versions[PEOPLE.name]
        if version != self._version:
            self._person, self._version = load(self._connection, self._person.id), version
        return self._person

    def change(self, person: Person) -> Person:
        """Keeps new settings of this person. Raises NotThere for anyone else, Refused, Unkeepable."""
        before = self._rows.read(PEOPLE.name, self._person.id)
        if before is None or person.id != self._person.id:
            raise NotThere(PEOPLE.name, person.id)
        self._rows.write(Change(PEOPLE.name, person.id, before, PEOPLE.raw(person)))
        return person


def find(connection: Connection, address: str) -> Person | None:
    """Who chats at this address, or None. As with ``load``, what is theirs is this transaction's alone where it may write."""
    found = connection.execute(_BY_ADDRESS_ALONE if connection.writes else _BY_ADDRESS, {"address": address}).first()
    return None if found is None else PEOPLE.record(found)


def keep_new(connection: Connection, person: Person) -> Person:
    """The new person with their id. Raises Refused when the address is taken."""
    return replace(person, id=connection.execute(_ADMIT, PEOPLE.values(person)).scalar())


def load(connection: Connection, id: int) -> Person:
    """The person with this id; where the transaction may write, nobody else changes what is theirs until it ends. Raises NotThere."""
    found = connection.execute(_BY_ID_ALONE if connection.writes else _BY_ID, {"id": id}).first()
    if found is None:
        raise NotThere(PEOPLE.name, id)
    return PEOPLE.record(found)
