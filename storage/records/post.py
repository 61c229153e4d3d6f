"""What is owed, what falls due, and what was done."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TypeAlias

from storage.records.choices import Author, ParcelKind, ParcelState, RoundKind, RoundState


@dataclass(frozen=True, slots=True)
class Round:
    """Something that falls due for a person. ``key`` is the local ISO day or another name, unique per kind."""

    id: int
    person_id: int
    kind: RoundKind
    key: str
    due: datetime
    detail: str = ""
    state: RoundState = RoundState.WAITING
    tries: int = 0


@dataclass(frozen=True, slots=True)
class Button:
    """What a tap says. ``does`` is the meaning in JSON, read back only for the person it was sent to.

    Of the buttons that are ``one_of`` a message's, only one may be taken.
    """

    label: str
    does: str
    one_of: bool = False


@dataclass(frozen=True, slots=True)
class Parcel:
    """A message owed to a person, or to nobody known when ``person_id`` is None.

    ``bold`` are the pairs of code-point offsets set in bold; ``edits`` the id
    of the parcel that this one rewrites; ``answers`` the journal entry it
    tells of; one that ``refuses`` says that something the person wanted was not
    done; ``carried_as`` is the chat service's id once it was sent. A file's
    content is in ``file_bytes``, or ``encloses`` is the meaning in JSON that
    asks for it, and it is made when the parcel is carried. ``tried`` is when it
    was tried without our learning how that ended: it may have arrived.
    """

    id: int
    person_id: int | None
    address: str
    kind: ParcelKind
    text: str
    written: datetime
    bold: tuple[tuple[int, int], ...] = ()
    buttons: tuple[tuple[Button, ...], ...] = ()
    silent: bool = False
    round: str | None = None
    file_name: str | None = None
    file_bytes: bytes | None = None
    encloses: str | None = None
    edits: int | None = None
    answers: int | None = None
    refuses: bool = False
    state: ParcelState = ParcelState.OWED
    not_before: datetime | None = None
    tries: int = 0
    carried_as: str | None = None
    tried: datetime | None = None


@dataclass(frozen=True, slots=True)
class Silence:
    """Since when a person could not be written to, because they blocked the bot, and how many messages were left unsent."""

    since: datetime
    unsent: int


@dataclass(frozen=True, slots=True)
class Waiting:
    """What has to be known of a parcel that is owed to put it in line."""

    id: int
    address: str
    round: str | None = None
    not_before: datetime | None = None


@dataclass(frozen=True, slots=True)
class Carried:
    """The chat service took the parcel, under the id ``carried_as``."""

    id: int
    carried_as: str


@dataclass(frozen=True, slots=True)
class PutOff:
    """The parcel stays owed and waits until then. With ``tried`` it may have arrived at that try."""

    id: int
    not_before: datetime
    tried: datetime | None = None


@dataclass(frozen=True, slots=True)
class SetAside:
    """The parcel will not be tried again."""

    id: int
    reason: str


@dataclass(frozen=True, slots=True)
class Blocked:
    """The person blocked the bot: nothing more goes to the address, nor falls due for them, until they are heard again."""

    id: int
    address: str


Outcome: TypeAlias = Carried | PutOff | SetAside | Blocked
"""What became of a parcel that was tried."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One action in the journal, as a person would name it.

    One that ``undoes`` another is nothing but that; one that ``replaces``
    another took it back and did something in its place.
    """

    id: int
    at: datetime
    summary: str
    heard_key: str | None
    undone_by: int | None = None
    undoes: int | None = None
    replaces: int | None = None
    by: Author = Author.PERSON


@dataclass(frozen=True, slots=True)
class Tap:
    """A button that was taken: which parcel, which row, which place in it, and the entry that came of it."""

    parcel_id: int
    row: int
    place: int
    entry_id: int | None = None


@dataclass(frozen=True, slots=True)
class PairingCode:
    """The code by which a new person may pair, as a hash; ``tries`` counts wrong ones."""

    code_hash: str
    made: datetime
    expires: datetime
    tries: int = 0
