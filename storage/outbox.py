"""Messages owed. They are written in the same transaction as what they tell of.

``Outbox`` is a desk's side: owing, and looking up what was sent. ``Post`` is
the postman's: what to send now, and how it went.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Select, bindparam, delete, func, insert, literal_column, select, update

from storage.connections import Connection, Connections
from storage.errors import NotThere
from storage.forms import PARCELS
from storage.kind import Claims
from storage.records import Blocked, Carried, Outcome, Parcel, ParcelState, PutOff, SetAside, Waiting
from storage.schema import parcels
from storage.silences import fall_silent

LONGEST_WAIT = timedelta(hours=1)
"""No parcel waits longer. One that seems to was told to wait before the clock was put back, and waits no more."""

# A literal, because SQLite takes the partial index for a literal only.
_IS_OWED = parcels.c.state == literal_column("'owed'")
_ahead = parcels.alias("ahead")
_HELD_UP = (
    select(_ahead.c.id)
    .where(
        _ahead.c.address == parcels.c.address,
        _ahead.c.state == literal_column("'owed'"),
        _ahead.c.id <= parcels.c.id,
        _ahead.c.not_before > bindparam("now"),
        _ahead.c.not_before <= bindparam("longest"),
    )
    .exists()
)
_ANY_READY = select(parcels.c.id).where(_IS_OWED, ~_HELD_UP).limit(1)
_SOONEST = select(func.min(parcels.c.not_before)).where(_IS_OWED, parcels.c.not_before > bindparam("now"))
_ANYONES = PARCELS.anyones(parcels.c.id == bindparam("id"))
_BY_CARRIED = PARCELS.mine(parcels.c.carried_as == bindparam("carried_as"), order=(parcels.c.id.desc(),)).limit(1)
_LATEST = PARCELS.mine(order=(parcels.c.id.desc(),)).limit(1)
_NEWEST = PARCELS.mine(order=(parcels.c.id.desc(),)).limit(bindparam("count"))
_ADD = insert(parcels).returning(parcels.c.id)
_OWE = insert(parcels)
_CHANGE = update(parcels).where(parcels.c.person_id == bindparam("of_person"), parcels.c.id == bindparam("of_id"))
_THIS = update(parcels).where(parcels.c.id == bindparam("of_id"))
_TRYING = _THIS.values(tries=parcels.c.tries + 1, tried=bindparam("now"))
_SENT = _THIS.values(state=ParcelState.SENT, carried_as=bindparam("as"), sent=bindparam("now"))
_LATER = _THIS.values(not_before=bindparam("when"), tried=bindparam("since"))
_ASIDE = _THIS.values(state=ParcelState.ASIDE, reason=bindparam("why"))
_WAITING = (
    select(parcels.c.id, parcels.c.address, parcels.c.round, parcels.c.not_before)
    .where(_IS_OWED, parcels.c.id > bindparam("after"))
    .order_by(parcels.c.id)
    .limit(bindparam("limit"))
)
_STILL_OWED = PARCELS.anyones(_IS_OWED, parcels.c.id == bindparam("id"))
# Where others send, too: it may be sent now, and nothing that goes to the same address before it is still owed.
_NEXT_IN_LINE = _STILL_OWED.where(
    ~_HELD_UP,
    ~select(_ahead.c.id)
    .where(_ahead.c.address == parcels.c.address, _ahead.c.state == literal_column("'owed'"), _ahead.c.id < parcels.c.id)
    .exists(),
)
_FORGET_STRANGERS = delete(parcels).where(parcels.c.person_id.is_(None), parcels.c.written < bindparam("before"))


class Outbox:
    """The parcels of one person, within a unit of work."""

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id

    def owe(self, parcel: Parcel) -> Parcel:
        """Writes a new parcel for this person, whatever its ``person_id`` says, and gives it with its id."""
        id = self._connection.execute(_ADD, {**PARCELS.values(parcel), "person_id": self._person_id}).scalar()
        return replace(parcel, id=id, person_id=self._person_id)

    def find(self, id: int) -> Parcel | None:
        """The person's parcel with this id, or None."""
        return self._first(PARCELS.one, id=id)

    def get(self, id: int) -> Parcel:
        """The person's parcel with this id. Raises NotThere."""
        found = self.find(id)
        if found is None:
            raise NotThere(PARCELS.name, id)
        return found

    def latest(self) -> Parcel | None:
        """What the person was owed last, or None."""
        return self._first(_LATEST)

    def newest(self, count: int) -> tuple[Parcel, ...]:
        """What the person was owed of late, at most ``count`` parcels, the newest first."""
        found = self._connection.execute(_NEWEST, {"person_id": self._person_id, "count": count})
        return tuple(map(PARCELS.record, found))

    def by_carried_as(self, carried_as: str) -> Parcel | None:
        """The newest parcel of the person that the chat service knows by this id, or None."""
        return self._first(_BY_CARRIED, carried_as=carried_as)

    def change(self, parcel: Parcel) -> Parcel:
        """Keeps the parcel in place of the person's one with its id. Raises NotThere."""
        values = {**PARCELS.values(replace(parcel, person_id=self._person_id)), "of_person": self._person_id, "of_id": parcel.id}
        if not self._connection.execute(_CHANGE, values).rowcount:
            raise NotThere(PARCELS.name, parcel.id)
        return parcel

    def _first(self, statement: Select[*tuple[Any, ...]], **given: object) -> Parcel | None:
        found = self._connection.execute(statement, {"person_id": self._person_id, **given}).first()
        return None if found is None else PARCELS.record(found)


def owe_a_stranger(connection: Connection, parcel: Parcel) -> None:
    """Owes the parcel to an address that is no person's, whatever its ``person_id`` says."""
    connection.execute(_OWE, PARCELS.values(replace(parcel, person_id=None)))


class Post:
    """The parcels of all people, each call a transaction of its own. Instants are UTC."""

    def __init__(self, connections: Connections, claims: Claims) -> None:
        self._connections = connections
        self._claims = claims
        self._takeable = _NEXT_IN_LINE if claims.shared else _STILL_OWED

    def next_due(self, now: datetime) -> datetime | None:
        """When to look again: ``now`` if something may be sent, else the next end of a wait, or None when nothing is owed.

        A parcel that must wait holds up the later ones to its address.
        """
        with self._connections.reading() as connection:
            if connection.execute(_ANY_READY, {"now": now, "longest": now + LONGEST_WAIT}).first() is not None:
                return now
            soonest: datetime | None = connection.execute(_SOONEST, {"now": now}).scalar()
            return soonest

    def get(self, id: int) -> Parcel:
        """The parcel with this id, whoever's it is. Raises NotThere."""
        with self._connections.reading() as connection:
            found = connection.execute(_ANYONES, {"id": id}).first()
        if found is None:
            raise NotThere(PARCELS.name, id)
        return PARCELS.record(found)

    def waiting(self, after: int, limit: int) -> tuple[Waiting, ...]:
        """What is owed and has an id above ``after``, in the order of ids."""
        with self._connections.reading() as connection:
            return tuple(Waiting(*row) for row in connection.execute(_WAITING, {"after": after, "limit": limit}))

    def note_and_take(self, outcomes: Sequence[Outcome], ids: Sequence[int], now: datetime) -> tuple[Parcel, ...]:
        """Keeps what became of parcels that were taken; then takes those of ``ids`` that are still owed, and gives them as they were.

        All of it or nothing. That a parcel is tried is kept before it is sent, so that after a crash in the middle of it
        it is known to have perhaps arrived. An outcome of one that is no longer there is passed over.
        Among several workers those that another one has in hand, or that are not next in line, are left out.
        """
        claimed = [id for id in ids if self._claims.claim(PARCELS.name, id)]
        taken: tuple[Parcel, ...] = ()
        try:
            with self._connections.writing() as connection:
                for outcome in outcomes:
                    _note(connection, outcome, now)
                tried = self._try(connection, claimed, now)
            taken = tried
        finally:
            self._claims.release(PARCELS.name, set(claimed).difference(parcel.id for parcel in taken))
        self._claims.release(PARCELS.name, [outcome.id for outcome in outcomes])
        return taken

    def _try(self, connection: Connection, ids: Sequence[int], now: datetime) -> tuple[Parcel, ...]:
        given = {"now": now, "longest": now + LONGEST_WAIT}
        found = [connection.execute(self._takeable, {"id": id, **given}).first() for id in ids]
        taken = tuple(PARCELS.record(row) for row in found if row is not None)
        for parcel in taken:
            connection.execute(_TRYING, {"of_id": parcel.id, "now": now})
        return taken

    def forget_strangers(self, before: datetime) -> int:
        """Forgets what nobody known was told or was owed before this instant, and gives its number."""
        with self._connections.writing() as connection:
            return connection.execute(_FORGET_STRANGERS, {"before": before}).rowcount


def _note(connection: Connection, outcome: Outcome, now: datetime) -> None:
    match outcome:
        case Carried(id, carried_as):
            connection.execute(_SENT, {"of_id": id, "as": carried_as, "now": now})
        case PutOff(id, not_before, tried):
            connection.execute(_LATER, {"of_id": id, "when": not_before, "since": tried})
        case SetAside(id, reason):
            connection.execute(_ASIDE, {"of_id": id, "why": reason})
        case Blocked(_, address):
            fall_silent(connection, address, now)
