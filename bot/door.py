"""Who may talk: the allowed, those who know the pairing code, and nobody else."""

from __future__ import annotations

import hmac
from collections.abc import Callable
from datetime import datetime, timedelta

from bot.actions.welcome import settle
from bot.heard import Heard, Said
from bot.newcomers import first_categories, first_jobs, newcomer
from bot.pairing import MOST_TRIES, hashed
from bot.settings import Settings
from bot.voice.say import UNWELCOME
from storage.database import Database
from storage.records import Parcel, ParcelKind, Person

TELL_AGAIN_AFTER = timedelta(days=1)
"""A stranger gets the one neutral line no more often than this."""


class Door:
    """Knows a person by their address, and admits new ones as the settings say."""

    def __init__(self, database: Database, settings: Settings, allowed: Callable[[str], bool]) -> None:
        self._database = database
        self._settings = settings
        self._allowed = allowed

    def who(self, heard: Heard, now: datetime) -> Person | None:
        """The person who is heard, admitted now if they may; None after turning anyone else away in one neutral line.

        Who was taken off the allowed ids is turned away like a stranger; nothing of theirs is erased by it.
        """
        person = self._database.people.find(heard.address)
        if person is not None and not self.is_shut_out(heard.address):
            return person
        if person is None and (self._allowed(heard.address) or self._knows_code(heard, now)):
            return self.admit(heard.address, now)
        self._turn_away(heard, now)
        return None

    def admit(self, address: str, now: datetime) -> Person:
        """Makes ``address`` a person with the settings' categories, sections, jobs, place and times."""
        with self._database.admitting(newcomer(self._settings, address, now), now) as desk:
            settle(desk, self._settings.sections, first_categories(self._settings), first_jobs(self._settings))
            return desk.person

    def is_shut_out(self, address: str) -> bool:
        """Whether the settings name who may talk over Telegram, and this one no longer is among them."""
        return bool(self._settings.telegram.allowed) and address.startswith("telegram:") and not self._allowed(address)

    def _knows_code(self, heard: Heard, now: datetime) -> bool:
        """Whether ``/start CODE`` brings the code that is waiting; each wrong one counts, and there are not many."""
        words = heard.text.split() if isinstance(heard, Said) else []
        waiting = self._database.pairing.current()
        if len(words) != 2 or words[0] != "/start" or waiting is None:
            return False
        if waiting.tries >= MOST_TRIES or now > waiting.expires:
            return False
        if hmac.compare_digest(hashed(words[1]), waiting.code_hash):
            return True
        self._database.pairing.note_try()
        return False

    def _turn_away(self, heard: Heard, now: datetime) -> None:
        parcel = Parcel(0, None, heard.address, ParcelKind.MESSAGE, UNWELCOME, now)
        self._database.handled.turn_away(heard.key, parcel, now, TELL_AGAIN_AFTER)
