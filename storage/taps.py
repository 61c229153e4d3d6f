"""Which buttons were taken, so that tapping one again does no harm."""

from __future__ import annotations

from sqlalchemy import bindparam, select

from storage.connections import Connection
from storage.putting import Put
from storage.records import Tap
from storage.schema import taps

_OF = (
    select(taps.c.parcel_id, taps.c.row, taps.c.place, taps.c.entry_id)
    .where(taps.c.person_id == bindparam("person_id"), taps.c.parcel_id == bindparam("parcel_id"))
    .order_by(taps.c.row, taps.c.place)
)
_NOTE = Put(taps)


class Taps:
    """The taps of one person, within a unit of work."""

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id

    def note(self, parcel_id: int, row: int, place: int, entry_id: int | None) -> None:
        """The button was taken and this entry came of it; it stands in for an earlier tap of the same button.

        Raises Refused when the parcel or the entry is not the person's.
        """
        tap = {"person_id": self._person_id, "parcel_id": parcel_id, "row": row, "place": place, "entry_id": entry_id}
        self._connection.execute(_NOTE, tap)

    def of(self, parcel_id: int) -> tuple[Tap, ...]:
        """The taken buttons of the person's parcel, top left to bottom right."""
        found = self._connection.execute(_OF, {"person_id": self._person_id, "parcel_id": parcel_id})
        return tuple(Tap(*row) for row in found)
