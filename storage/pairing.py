"""The one code by which a new person may pair, kept as a hash only."""

from __future__ import annotations

from sqlalchemy import delete, select, update

from storage.connections import Connection, Connections
from storage.putting import Put
from storage.records import PairingCode
from storage.schema import pairing

_CURRENT = select(pairing.c.code_hash, pairing.c.made, pairing.c.expires, pairing.c.tries)
_CLEAR = delete(pairing)
_PUT = Put(pairing)
_NOTE_TRY = update(pairing).values(tries=pairing.c.tries + 1)


class Pairing:
    """The code in force, each call a transaction of its own."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections

    def current(self) -> PairingCode | None:
        """The code that was set last, expired or not, or None."""
        with self._connections.reading() as connection:
            found = connection.execute(_CURRENT).first()
        return None if found is None else PairingCode(*found)

    def replace(self, code: PairingCode) -> None:
        """From now on this is the code, and the earlier one is void."""
        with self._connections.writing() as connection:
            values = {"id": 1, "code_hash": code.code_hash, "made": code.made, "expires": code.expires, "tries": code.tries}
            connection.execute(_PUT, values)

    def note_try(self) -> None:
        """Counts a try on the code, if there is one."""
        with self._connections.writing() as connection:
            connection.execute(_NOTE_TRY)

    def clear(self) -> None:
        """From now on there is no code."""
        with self._connections.writing() as connection:
            spend(connection)


def spend(connection: Connection) -> None:
    """From now on there is no code."""
    connection.execute(_CLEAR)
