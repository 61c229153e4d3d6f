"""The keys of deliveries already handled. Chat services deliver again, in any order: membership decides, never order."""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import Text, bindparam, delete, exists, insert, select

from storage.connections import Connection, Connections
from storage.outbox import owe_a_stranger
from storage.records import Parcel
from storage.schema import handled, parcels
from storage.types import UtcInstant

_NOTE_IF_NEW = insert(handled).from_select(
    ["key", "at"],
    select(bindparam("new_key", type_=Text()), bindparam("now", type_=UtcInstant()))
    .where(~exists().where(handled.c.key == bindparam("new_key", type_=Text())))
    # Another worker may be about to note the same key; then its end is waited for.
    .suffix_with("ON CONFLICT DO NOTHING", dialect="postgresql"),
)
_TOLD_LATELY = select(parcels.c.id).where(
    parcels.c.address == bindparam("to"), parcels.c.person_id.is_(None), parcels.c.written > bindparam("since")
)
_FORGET = delete(handled).where(handled.c.at < bindparam("before"))


class Handled:
    """The handled keys, within a unit of work."""

    def __init__(self, connection: Connection, now: datetime) -> None:
        self._connection = connection
        self._now = now

    def first_time(self, key: str) -> bool:
        """Notes the key; False when it was noted before. It stays noted only if the unit of work is kept."""
        return bool(self._connection.execute(_NOTE_IF_NEW, {"new_key": key, "now": self._now}).rowcount)


class HandledKeys:
    """The handled keys, each call a transaction of its own: for who is no person yet."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections

    def first_time(self, key: str, now: datetime) -> bool:
        """Notes the key; False when it was noted before."""
        with self._connections.writing() as connection:
            return Handled(connection, now).first_time(key)

    def turn_away(self, key: str, parcel: Parcel, now: datetime, again_after: timedelta) -> None:
        """Notes the key of someone unknown and owes them ``parcel``, unless they were owed one lately."""
        with self._connections.writing() as connection:
            lately = {"to": parcel.address, "since": now - again_after}
            if Handled(connection, now).first_time(key) and connection.execute(_TOLD_LATELY, lately).first() is None:
                owe_a_stranger(connection, parcel)

    def forget(self, before: datetime) -> int:
        """Forgets the keys noted before this instant and gives their number."""
        with self._connections.writing() as connection:
            return connection.execute(_FORGET, {"before": before}).rowcount
