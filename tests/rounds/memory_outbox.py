"""An outbox kept in memory, with the same promises as the database's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime

from storage.records import Blocked, Button, Carried, Outcome, Parcel, ParcelKind, ParcelState, PutOff, SetAside, Waiting

START = datetime(2026, 3, 2, 5, 0, tzinfo=UTC)


class MemoryOutbox:
    """Holds parcels by id and remembers what was noted about them, in order."""

    def __init__(self, *parcels: Parcel) -> None:
        self.parcels = {parcel.id: parcel for parcel in parcels}
        self.notes: list[tuple[str, int]] = []

    def owe(self, parcel: Parcel) -> Parcel:
        """Adds a parcel under the next id."""
        owed = replace(parcel, id=len(self.parcels) + 1)
        self.parcels[owed.id] = owed
        return owed

    def owed(self, now: datetime, limit: int) -> list[Parcel]:
        waiting = [parcel for parcel in self.parcels.values() if parcel.state is ParcelState.OWED]
        held = {parcel.address: parcel.id for parcel in reversed(waiting) if parcel.not_before and parcel.not_before > now}
        return [parcel for parcel in waiting if parcel.id < held.get(parcel.address, parcel.id + 1)][:limit]

    def next_due(self, now: datetime) -> datetime | None:
        if self.owed(now, 1):
            return now
        waits = [parcel.not_before for parcel in self.parcels.values() if parcel.state is ParcelState.OWED and parcel.not_before]
        return min(waits, default=None)

    def get(self, id: int) -> Parcel:
        return self.parcels[id]

    def waiting(self, after: int, limit: int) -> list[Waiting]:
        found = [parcel for parcel in self.parcels.values() if parcel.state is ParcelState.OWED and parcel.id > after]
        return [Waiting(parcel.id, parcel.address, parcel.round, parcel.not_before) for parcel in found][:limit]

    def note_and_take(self, outcomes: Sequence[Outcome], ids: Sequence[int], now: datetime) -> list[Parcel]:
        if outcomes:
            self.note(outcomes, now)
        return self.take(ids, now)

    def take(self, ids: Sequence[int], now: datetime) -> list[Parcel]:
        taken = [self.parcels[id] for id in ids if self.parcels[id].state is ParcelState.OWED]
        for parcel in taken:
            self._change("trying", parcel.id, tries=parcel.tries + 1, tried=now)
        return taken

    def note(self, outcomes: Sequence[Outcome], now: datetime) -> None:
        for outcome in outcomes:
            match outcome:
                case Carried(id, carried_as):
                    self._change("sent", id, state=ParcelState.SENT, carried_as=carried_as)
                case PutOff(id, not_before, tried):
                    self._change("later", id, not_before=not_before, tried=tried)
                case SetAside(id):
                    self._change("aside", id, state=ParcelState.ASIDE)
                case Blocked(_, address):
                    self._block(address)

    def _block(self, address: str) -> None:
        for id in [id for id, parcel in self.parcels.items() if parcel.address == address and parcel.state is ParcelState.OWED]:
            self._change("aside", id, state=ParcelState.ASIDE)

    def _change(self, note: str, id: int, **changes: object) -> None:
        self.notes.append((note, id))
        self.parcels[id] = replace(self.parcels[id], **changes)  # type: ignore[arg-type]


def message(text: str, id: int = 0, address: str = "telegram:99", labels: tuple[str, ...] = (), silent: bool = False) -> Parcel:
    """A message that is owed, with one row of buttons."""
    buttons = (tuple(Button(label, "{}") for label in labels),) if labels else ()
    return Parcel(id, 1, address, ParcelKind.MESSAGE, text, START, buttons=buttons, silent=silent)


def rewrite(text: str, edits: int, id: int = 0, address: str = "telegram:99") -> Parcel:
    """An edit of the parcel ``edits``."""
    return replace(message(text, id, address), kind=ParcelKind.EDIT, edits=edits)
