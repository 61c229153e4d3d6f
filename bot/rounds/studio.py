"""Makes the files that parcels enclose, off the loop, when they are carried."""

from __future__ import annotations

import logging
from dataclasses import replace

from bot.actions.enclosures import TooLarge
from bot.rounds.making import Making
from bot.rounds.off_loop import off_loop
from bot.rounds.steadily import failure_of, whereabouts
from bot.voice.picture_words import NOT_MADE, TOO_LARGE
from storage.errors import Locked
from storage.records import Parcel, ParcelKind

log = logging.getLogger("weekwright.studio")


class Studio:
    """What a parcel encloses is kept as a meaning, so the same file is made again after a crash."""

    def __init__(self, make: Making) -> None:
        self._make = make

    async def fill(self, parcel: Parcel) -> Parcel:
        """The parcel with its file in it; with a word instead where it could not be made, so that nothing behind it waits for ever.

        Raises Locked.
        """
        encloses, person_id = parcel.encloses, parcel.person_id
        if encloses is None or person_id is None:
            return parcel
        made: list[bytes] = []

        async def make() -> None:
            made.append(await off_loop(lambda: self._make(encloses, person_id, parcel.written)))

        failure = await failure_of(make)
        if failure is None:
            return replace(parcel, file_bytes=made[0])
        if isinstance(failure, Locked):
            raise failure
        log.error("the file of parcel %d was not made: %s", parcel.id, whereabouts(failure))
        why = TOO_LARGE if isinstance(failure, TooLarge) else NOT_MADE
        return replace(parcel, kind=ParcelKind.MESSAGE, text=f"{parcel.text}\n{why}", file_name=None)
