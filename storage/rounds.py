"""What falls due by itself. A round is one row per person, kind and key: it happens once, or not at all.

``Rounds`` is a desk's side: planning and claiming. ``Due`` is the alarm's:
what is due among all people. Instants are UTC.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime, timedelta

from sqlalchemy import Update, bindparam, func, insert, literal_column, select, update

from storage.connections import Connection, Connections
from storage.errors import NotThere
from storage.forms import PEOPLE, ROUNDS
from storage.kind import Claims
from storage.records import Person, Round, RoundKind, RoundState
from storage.schema import people, rounds, silences
from storage.types import in_utc

# Literals, because SQLite takes a partial index for a literal only.
_IS_WAITING = rounds.c.state == literal_column("'waiting'")
_OF_KIND = rounds.c.kind == bindparam("kind")
_KEYED = ROUNDS.mine(_OF_KIND, rounds.c.key == bindparam("key"))
_WAITING = ROUNDS.mine(_IS_WAITING)
_ADD = insert(rounds).returning(rounds.c.id)
_THIS = update(rounds).where(rounds.c.person_id == bindparam("of_person"), rounds.c.id == bindparam("of_id"))
_CLAIM = _THIS.where(_IS_WAITING).values(state=RoundState.DONE, tries=rounds.c.tries + 1)
_CLAIM_AS_IT_WAS = _CLAIM.where(rounds.c.key == bindparam("was_key"), rounds.c.due == bindparam("was_due"))
_FINISH = _THIS.values(state=bindparam("as"))
_REPLAN = _THIS.values(state=RoundState.WAITING, key=bindparam("to_key"), due=bindparam("to_due"))
_IS_SILENT = select(silences.c.person_id).where(silences.c.person_id == rounds.c.person_id).exists()
_HAS_COME = rounds.c.due <= bindparam("now")
_DUE = ROUNDS.anyones(_IS_WAITING, ~_IS_SILENT, _HAS_COME).order_by(rounds.c.due, rounds.c.id).limit(bindparam("limit"))
# A file knows no locks of rows, and needs none.
_STILL_DUE = PEOPLE.anyones(people.c.id == rounds.c.person_id, rounds.c.id == bindparam("id"), _IS_WAITING).with_for_update(
    key_share=True, of=people, skip_locked=True
)
_NEXT_DUE = select(func.min(rounds.c.due)).where(_IS_WAITING, ~_IS_SILENT)
_WAITS_FOR_LONG = select(rounds.c.person_id).where(_IS_WAITING, _OF_KIND, rounds.c.due > bindparam("after"))
_MISSED_TOO_SOON = select(rounds.c.person_id).where(rounds.c.state == literal_column("'missed'"), rounds.c.due > bindparam("now"))
_LATER = update(rounds).where(rounds.c.id == bindparam("of_id"), _IS_WAITING).values(due=bindparam("to_due"), tries=rounds.c.tries + 1)


class Rounds:
    """The rounds of one person, within a unit of work.

    All that wait are read at once; from then on it is known what became of them here, until something is put back.
    """

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id
        self._read: dict[tuple[RoundKind, str], Round | None] | None = None
        self._put_back = connection.put_back

    def plan(self, kind: RoundKind, key: str, due: datetime, detail: str = "") -> Round:
        """The round of this kind and key: planned now if there is none, else the one there is, as it is."""
        known = self.find(kind, key)
        if known is not None:
            return known
        planned = Round(0, self._person_id, kind, key, in_utc(due), detail)
        return self._note(ROUNDS.with_id(planned, self._connection.execute(_ADD, ROUNDS.values(planned)).scalar()))

    def replan(self, kind: RoundKind, key: str, due: datetime) -> Round:
        """Puts the earliest waiting round of this kind to another key and instant, or plans one when none waits.

        A round of that key that is done stays done and is given back as it is. One that was missed waits again: a
        clock that ran ahead has come back to before it.
        """
        known, waiting = self.find(kind, key), self.waiting(kind)
        if known is not None and known.state not in (RoundState.WAITING, RoundState.MISSED):
            return known
        moved = known or next(iter(waiting), None)
        if moved is None:
            return self.plan(kind, key, due)
        self._carry_out(_REPLAN, moved.id, to_key=key, to_due=due)
        return self._note(replace(moved, state=RoundState.WAITING, key=key, due=in_utc(due)))

    def find(self, kind: RoundKind, key: str) -> Round | None:
        """The round of this kind and key in any state, or None."""
        known = self._known()
        if (kind, key) not in known:
            found = self._connection.execute(_KEYED, {"person_id": self._person_id, "kind": kind, "key": key}).first()
            known[kind, key] = None if found is None else ROUNDS.record(found)
        return known[kind, key]

    def waiting(self, kind: RoundKind) -> tuple[Round, ...]:
        """Those of this kind that still wait, earliest first."""
        waiting = (each for each in self._known().values() if each and each.kind is kind and each.state is RoundState.WAITING)
        return tuple(sorted(waiting, key=lambda each: (each.due, each.id)))

    def claim(self, id: int) -> bool:
        """Marks the round done and counts the try; False when it no longer waits or is not the person's.

        Of all that ever claim a round, one is told True, provided its unit of work is kept.
        """
        return self._carry_out(_CLAIM, id)

    def claim_as_it_was(self, read: Round) -> bool:
        """The same; False, too, when the round waits for another day or instant than when it was ``read``."""
        return self._carry_out(_CLAIM_AS_IT_WAS, read.id, was_key=read.key, was_due=read.due)

    def finish(self, id: int, state: RoundState) -> None:
        """Says how the round ended. Raises NotThere."""
        if not self._carry_out(_FINISH, id, **{"as": state}):
            raise NotThere(ROUNDS.name, id)

    def _carry_out(self, statement: Update, id: int, **given: object) -> bool:
        """Whether there was such a round; what was known of it is not known any more then."""
        written = bool(self._connection.execute(statement, {"of_person": self._person_id, "of_id": id, **given}).rowcount)
        if written and self._read is not None:
            self._read = {of: each for of, each in self._read.items() if each is None or each.id != id}
        return written

    def _note(self, written: Round) -> Round:
        self._known()[written.kind, written.key] = written
        return written

    def _known(self) -> dict[tuple[RoundKind, str], Round | None]:
        """By kind and key, all that wait and all else that was asked for: None for what is not there."""
        if self._read is None or self._put_back != self._connection.put_back:
            waiting = map(ROUNDS.record, self._connection.execute(_WAITING, {"person_id": self._person_id}))
            self._read, self._put_back = {(each.kind, each.key): each for each in waiting}, self._connection.put_back
        return self._read


def still_due(connection: Connection, id: int) -> Person | None:
    """Whose round it is if it still waits and they are at no other worker's desk, nor will be until the transaction ends; else None."""
    found = connection.execute(_STILL_DUE, {"id": id}).first()
    return None if found is None else PEOPLE.record(found)


class Due:
    """The rounds of all people, each call a transaction of its own."""

    def __init__(self, connections: Connections, claims: Claims) -> None:
        self._connections = connections
        self._claims = claims

    def due(self, now: datetime, limit: int = 100) -> tuple[Round, ...]:
        """The waiting rounds whose instant has come, earliest first; none of a person who blocked the bot."""
        with self._connections.reading() as connection:
            return tuple(map(ROUNDS.record, connection.execute(_DUE, {"now": now, "limit": limit})))

    def next_due(self) -> datetime | None:
        """The earliest instant that a round waits for, or None."""
        with self._connections.reading() as connection:
            soonest: datetime | None = connection.execute(_NEXT_DUE).scalar()
            return soonest

    def astray(self, longest: Mapping[RoundKind, timedelta], now: datetime) -> tuple[int, ...]:
        """The ids of the people for whom a clock that ran ahead may have left its marks.

        A round of theirs waits for longer from ``now`` than is the ``longest`` of its kind, or was missed though it is not due yet.
        """
        with self._connections.reading() as connection:
            waiting = [connection.execute(_WAITS_FOR_LONG, {"kind": kind, "after": now + wait}) for kind, wait in longest.items()]
            missed = connection.execute(_MISSED_TOO_SOON, {"now": now})
            return tuple(sorted({id for found in (*waiting, missed) for (id,) in found}))

    @contextmanager
    def in_hand(self, id: int) -> Iterator[bool]:
        """Whether the round is this worker's for as long as the block lasts: another one that has it in hand keeps it."""
        claimed = self._claims.claim(ROUNDS.name, id)
        try:
            yield claimed
        finally:
            if claimed:
                self._claims.release(ROUNDS.name, (id,))

    def later(self, id: int, due: datetime) -> None:
        """A round that failed waits until then and counts the try. Raises NotThere when it does not wait."""
        with self._connections.writing() as connection:
            if not connection.execute(_LATER, {"of_id": id, "to_due": due}).rowcount:
                raise NotThere(ROUNDS.name, id)
