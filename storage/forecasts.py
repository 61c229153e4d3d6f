"""Forecasts that were fetched, kept by place so that a restart asks for nothing new. They belong to no person."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import bindparam, select

from storage.connections import Connection, Connections
from storage.putting import Put
from storage.schema import forecasts

_OF = select(forecasts.c.fetched, forecasts.c.payload).where(forecasts.c.place == bindparam("place"))
_PUT = Put(forecasts)


class DeskForecasts:
    """The kept forecasts, within a unit of work: to read only."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection
        self._read: dict[str, tuple[datetime, str] | None] = {}

    def get(self, place: str) -> tuple[datetime, str] | None:
        """When the forecast of the place was fetched (UTC) and its text, or None."""
        # A forecast is long, and within a unit of work it stays the same.
        if place not in self._read:
            found = self._connection.execute(_OF, {"place": place}).first()
            self._read[place] = None if found is None else (found[0], found[1])
        return self._read[place]


class Forecasts:
    """The newest forecast of each place, each call a transaction of its own."""

    def __init__(self, connections: Connections) -> None:
        self._connections = connections

    def get(self, place: str) -> tuple[datetime, str] | None:
        """When the forecast was fetched (UTC) and its text, or None."""
        with self._connections.reading() as connection:
            return DeskForecasts(connection).get(place)

    def put(self, place: str, fetched: datetime, payload: str) -> None:
        """Keeps this forecast in place of an earlier one."""
        with self._connections.writing() as connection:
            connection.execute(_PUT, {"place": place, "fetched": fetched, "payload": payload})
