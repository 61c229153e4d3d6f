"""Files that were sent and wait to be read: kept so that a crash in the middle loses nothing, and forgotten once they are read."""

from __future__ import annotations

from sqlalchemy import bindparam, delete, select

from storage.connections import Connection
from storage.putting import Put
from storage.schema import sent_files

_THIS = sent_files.c.person_id == bindparam("of_person"), sent_files.c.key == bindparam("of_key")
_FIND = select(sent_files.c.name, sent_files.c.content).where(*_THIS)
_FORGET = delete(sent_files).where(*_THIS)
_PUT = Put(sent_files)


class SentFiles:
    """The waiting files of one person, by the key of the message that brought them. Not journalled."""

    def __init__(self, connection: Connection, person_id: int) -> None:
        self._connection = connection
        self._person_id = person_id

    def keep(self, key: str, name: str, content: bytes) -> None:
        """Keeps a file until it is read, in place of one of the same key."""
        self._connection.execute(_PUT, {"person_id": self._person_id, "key": key, "name": name, "content": content})

    def find(self, key: str) -> tuple[str, bytes] | None:
        """Its name and content, or None."""
        found = self._connection.execute(_FIND, {"of_person": self._person_id, "of_key": key}).first()
        return None if found is None else (found[0], found[1])

    def forget(self, key: str) -> None:
        """It has been read."""
        self._connection.execute(_FORGET, {"of_person": self._person_id, "of_key": key})
