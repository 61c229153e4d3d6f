"""The weather that the person was told of, by day. Not journalled: an undo changes nothing that was said."""

from __future__ import annotations

from datetime import date

from sqlalchemy import bindparam, select

from storage.connections import Connection
from storage.putting import Put
from storage.records import ToldWeather
from storage.schema import told_weather

_MINE = told_weather.c.person_id == bindparam("of_person")
_BETWEEN = (
    select(*(each for each in told_weather.c if each.name != "person_id"))
    .where(_MINE, told_weather.c.day.between(bindparam("first"), bindparam("last")))
    .order_by(told_weather.c.day)
)
_PUT = Put(told_weather)


class Weather:
    """What one person was told, within a unit of work."""

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id

    def between(self, first: date, last: date) -> tuple[ToldWeather, ...]:
        """That of the local days from ``first`` to ``last``, both included, as far as it is known, in order."""
        found = self._connection.execute(_BETWEEN, {"of_person": self._person_id, "first": first, "last": last})
        return tuple(ToldWeather(*row) for row in found)

    def put(self, told: ToldWeather) -> None:
        """Keeps it in place of what was told of that day before."""
        values = {"day": told.day, "low": told.low, "high": told.high, "code": told.code, "wet": told.wet}
        self._connection.execute(_PUT, {"person_id": self._person_id, **values})
