"""People who blocked the bot: nothing is sent to them or falls due for them until they are heard again."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import bindparam, delete, insert, select, update

from storage.connections import Connection
from storage.records import ParcelState, Silence
from storage.schema import parcels, people, silences

BLOCKED = "blocked by the person"

_OF = select(silences.c.since, silences.c.unsent).where(silences.c.person_id == bindparam("person_id"))
_END = delete(silences).where(silences.c.person_id == bindparam("of_person"))
_WHO = select(people.c.id).where(people.c.address == bindparam("address"))
_BEGIN = insert(silences)
_GO_ON = update(silences).where(silences.c.person_id == bindparam("of_person")).values(unsent=silences.c.unsent + bindparam("more"))
_PUT_ASIDE = (
    update(parcels)
    .where(parcels.c.address == bindparam("of_address"), parcels.c.state == ParcelState.OWED)
    .values(state=ParcelState.ASIDE, reason=BLOCKED)
)


def fall_silent(connection: Connection, address: str, now: datetime) -> None:
    """Sets aside all that is owed to the address, and begins the silence of the person there, if there is one."""
    unsent = connection.execute(_PUT_ASIDE, {"of_address": address}).rowcount
    person_id = connection.execute(_WHO, {"address": address}).scalar()
    if person_id is not None and not connection.execute(_GO_ON, {"of_person": person_id, "more": unsent}).rowcount:
        connection.execute(_BEGIN, {"person_id": person_id, "since": now, "unsent": unsent})


class Silences:
    """The silence of one person, within a unit of work."""

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id

    def end(self) -> Silence | None:
        """Ends it, for the person is heard again, and says what it was; None when there was none."""
        found = self._connection.execute(_OF, {"person_id": self._person_id}).first()
        if found is None:
            return None
        self._connection.execute(_END, {"of_person": self._person_id})
        return Silence(*found)
