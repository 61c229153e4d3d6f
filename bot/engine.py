"""One thing heard -> one transaction -> replies owed."""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, datetime
from pathlib import PurePath
from typing import TypeAlias

from bot.actions.act import act, act_or_stop
from bot.actions.aiming import aimed, by_list_shown, moved_to
from bot.actions.calendars import keep_file, kept_days
from bot.actions.knowing import context_of
from bot.actions.refused import Stopped
from bot.actions.schedule import plan_if_moved
from bot.actions.setting import keep_place
from bot.actions.undoing import ask_to_undo
from bot.actions.welcome import answer, ask_again, begun_or_ended, greet, on_from_order, on_from_place
from bot.calendar_unread import unread
from bot.door import Door
from bot.first_questions import was_asked
from bot.heard import Edited, Heard, Located, Said, SentFile, Tapped, button_place
from bot.language.meaning import Ask, Close, Drop, Meaning, Push, Reopen, Set, Show, Undo, Unknown
from bot.language.step_replies import answers_plainly
from bot.language.understand import LONGEST_TEXT, understand
from bot.language.wire import from_json
from bot.leaving import asks_to_leave, bid_farewell, confirms
from bot.outside.faults import CalendarUnavailable
from bot.owing import owe
from bot.rules.calendar_events import ReadCalendar
from bot.tamed import tamed
from bot.voice.replies import BackAgain, ErasingAsked, FileBeingRead, Logged, NotUnderstood, Privacy, Refusal, Reply
from storage.database import Database
from storage.desk import Desk
from storage.errors import ChangedSince, StorageError
from storage.records import Button, Entry, Parcel, RoundKind

"""Characters of a reply that are read; longer ones are refused in one sentence."""

READ_AT_ONCE = 200_000
"""Bytes of a file that is read before the answer: up to a tenth of a second."""

MOST_READ = 10 * 1024 * 1024
"""A larger one is refused at once by its reader."""

CALENDAR_BEGINS = b"BEGIN:VCALENDAR"
CalendarReader: TypeAlias = Callable[[bytes, str, date, date], ReadCalendar]

log = logging.getLogger("weekwright.engine")


class Engine:
    """Hears what channels bring. Its only state is the database."""

    def __init__(
        self,
        database: Database,
        door: Door,
        zone_at: Callable[[float, float], str],
        read_calendar: CalendarReader,
        now: Callable[[], datetime],
    ) -> None:
        self._database = database
        self._door = door
        self._zone_at = zone_at
        self._read_calendar = read_calendar
        self._now = now

    def receive(self, heard: Heard) -> None:
        """Handles one delivery exactly once: its key, its effects and the answers owed are kept together or not at all."""
        if not self._receive_known([heard]):
            self._receive_other(heard)

    def _receive_other(self, heard: Heard) -> None:
        """Handles what comes from someone unknown or shut out, or makes someone leave."""
        person = self._door.who(heard, self._now())
        if person is None:
            return
        with self._database.desk(person.id, self._now()) as desk:
            leaves = _leaves(desk, heard) and desk.handled.first_time(heard.key)
            if leaves:
                bid_farewell(desk)
            else:
                self._hear_once(desk, heard)
        if leaves:
            self._leave_no_trace(person.id)

    def receive_all(self, heard: Sequence[Heard]) -> None:
        """Handles deliveries in order, as ``receive`` does, with one transaction for as many as come from people who are known.

        On any exception the last of these transactions was not kept; each of the deliveries may come again, or be received alone.
        """
        while heard:
            handled = self._receive_known(heard)
            if not handled:
                self._receive_other(heard[0])
            heard = heard[max(handled, 1) :]

    def _receive_known(self, heard: Sequence[Heard]) -> int:
        """Handles those up to the first of someone unknown, shut out or about to leave; gives how many that were."""
        with self._database.desks() as desks:
            for number, each in enumerate(heard):
                person = None if self._door.is_shut_out(each.address) else desks.person(each.address)
                if person is None:
                    return number
                with desks.desk(person.id, self._now()) as desk:
                    if _leaves(desk, each):
                        return number
                    self._hear_once(desk, each)
        return len(heard)

    def set_aside(self, heard: Heard, error: Exception) -> None:
        """Notes a delivery that could not be handled, so that it does not come again, and tells the person so."""
        log.error("set aside %s: %s", heard.key, type(error).__name__)
        person = self._database.people.find(heard.address)
        if person is None:
            return
        with self._database.desk(person.id, self._now()) as desk:
            if desk.handled.first_time(heard.key):
                owe(desk, Refusal("went wrong"))

    def _hear_once(self, desk: Desk, heard: Heard) -> None:
        if desk.handled.first_time(heard.key):
            _welcome_back(desk)
            self._hear(desk, tamed(heard))

    def _hear(self, desk: Desk, heard: Heard) -> None:
        if isinstance(heard, Said):
            owe(desk, _said_first(desk, heard), heard.message_key)
        elif isinstance(heard, Edited):
            owe(desk, _edited(desk, heard), heard.message_key)
        elif isinstance(heard, Tapped):
            _tapped(desk, heard)
        elif isinstance(heard, Located):
            owe(desk, self._located(desk, heard), heard.key)
        elif isinstance(heard, SentFile) and READ_AT_ONCE < len(heard.content) <= MOST_READ and _is_calendar(heard):
            _put_off(desk, heard)
        elif isinstance(heard, SentFile):
            owe(desk, self._sent(desk, heard), heard.message_key)

    def _leave_no_trace(self, person_id: int) -> None:
        log.info("person %d is erased", person_id)
        try:
            self._database.everything.leave_no_trace()
        except StorageError as error:
            # The person is gone all the same; what is free in the file is overwritten by and by.
            log.warning("the file still holds traces: %s", type(error).__name__)

    def _located(self, desk: Desk, heard: Located) -> Reply:
        kept = keep_place(desk, None, heard.latitude, heard.longitude, self._zone_at(heard.latitude, heard.longitude))
        return on_from_place(desk, kept)

    def _sent(self, desk: Desk, heard: SentFile) -> Reply:
        """A calendar is read and kept, whatever its file is called; any other file is not read yet."""
        if not _is_calendar(heard):
            return Refusal("file not read", heard.name)
        try:
            read = self._read_calendar(heard.content, desk.person.zone, *kept_days(desk))
        except CalendarUnavailable as error:
            return unread(heard.name, error)
        return keep_file(desk, PurePath(heard.name).stem or heard.name, read)


def _leaves(desk: Desk, heard: Heard) -> bool:
    return isinstance(heard, Tapped) and confirms(desk, heard)


def _is_calendar(heard: SentFile) -> bool:
    return PurePath(heard.name).suffix.lower() == ".ics" or CALENDAR_BEGINS in heard.content[:100].upper()


def _put_off(desk: Desk, heard: SentFile) -> None:
    """A long file is read by a round, so that nobody waits for it meanwhile."""
    parcel = owe(desk, FileBeingRead(heard.name))
    desk.files.keep(heard.message_key, heard.name, heard.content)
    desk.rounds.plan(RoundKind.READING, heard.message_key, desk.now, str(parcel.id))


def _welcome_back(desk: Desk) -> None:
    """Whoever writes has let the bot in again, and is told what could not be sent meanwhile."""
    silence = desk.silences.end()
    if silence is not None:
        owe(desk, BackAgain(silence.since, silence.unsent))


def _said(desk: Desk, heard: Said) -> Reply:
    if len(heard.text) > LONGEST_TEXT:
        return Refusal("too long")
    command = heard.text.split(maxsplit=1)[:1]
    if command == ["/start"]:
        return greet(desk)
    if command == ["/privacy"]:
        return Privacy()
    if asks_to_leave(heard.text):
        return ErasingAsked()
    begun = begun_or_ended(desk, heard.text)
    if begun is not None:
        return begun
    asked = was_asked(desk, heard.text)
    if asked and answers_plainly(desk.person.step, heard.text):
        return answer(desk, heard.text) or greet(desk)
    meaning = understand(heard.text, context_of(desk))
    if isinstance(meaning, Unknown | Ask | Show):
        meaning = moved_to(desk, heard.text) or meaning
    if asked and isinstance(meaning, Unknown | Ask):
        return answer(desk, heard.text) or ask_again(desk, act(desk, meaning, text=heard.text))
    if asked and isinstance(meaning, Show | Set):
        return on_from_order(desk, meaning, act(desk, meaning, text=heard.text))
    about = desk.outbox.by_carried_as(heard.replies_to) if heard.replies_to else None
    meaning = by_list_shown(desk, aimed(desk, meaning, about.answers if about else None))
    return act(desk, meaning, text=heard.text, heard_key=heard.message_key)


def _said_first(desk: Desk, heard: Said) -> Reply:
    """A message that its own edit has overtaken on the way says nothing more: what it says now was done already."""
    overtaken = desk.journal.by_heard(heard.message_key)
    return _said(desk, heard) if overtaken is None else Refusal("edited since", overtaken.summary)


def _edited(desk: Desk, heard: Edited) -> Reply:
    """Does what the message says now in place of what it said before; when that cannot be, what was before stays."""
    entry = desk.journal.by_heard(heard.message_key)
    meaning = understand(heard.text, context_of(desk))
    if entry is None or entry.undone_by is not None or not desk.journal.changes(entry.id):
        if isinstance(meaning, Undo):
            return ask_to_undo(desk, meaning, entry)
        return _said(desk, Said(heard.address, heard.key, heard.message_key, heard.text))
    if isinstance(meaning, Unknown):
        return NotUnderstood(heard.text, meaning.near, stays=entry.summary)
    if isinstance(meaning, Undo):
        # What is to be taken back is what this very message did; edited once more, it does something anew.
        return act(desk, replace(meaning, entry=entry.id), heard_key=heard.key)
    try:
        with desk.attempt():
            return _instead(desk, entry, meaning, heard)
    except Stopped as stopped:
        return stopped.reply
    except ChangedSince:
        return Refusal("changed since", entry.summary)


def _instead(desk: Desk, entry: Entry, meaning: Meaning, heard: Edited) -> Reply:
    before = desk.person
    desk.journal.put_back(entry.id)
    plan_if_moved(desk, before)
    reply = act_or_stop(desk, meaning, text=heard.text, heard_key=heard.message_key)
    return replace(reply, corrected=True) if isinstance(reply, Logged) else reply


def _tapped(desk: Desk, heard: Tapped) -> None:
    """Does what the button means, once: a second tap, or one on a button that others replaced, says so and changes nothing."""
    place = button_place(heard.data)
    parcel = desk.outbox.find(place[0]) if place else None
    button = _button_at(parcel.buttons, place[1], place[2]) if parcel and place else None
    if parcel is None or place is None or button is None:
        owe(desk, Refusal("button gone"))
        return
    if _overtaken(desk, parcel):
        owe(desk, Refusal("button gone"))
        return
    meaning = aimed(desk, from_json(button.does), parcel.answers)
    if _taken(desk, parcel.id, button, place[1:], meaning):
        owe(desk, Refusal("already chosen", button.label))
        return
    reply = act(desk, meaning, text=button.label, heard_key=heard.key)
    answered = owe(desk, reply, heard.key)
    if answered.answers is not None:
        desk.taps.note(parcel.id, place[1], place[2], answered.answers)


def _overtaken(desk: Desk, parcel: Parcel) -> bool:
    """Whether the message that this one answers was edited since and now says something else."""
    answered = desk.journal.get(parcel.answers) if parcel.answers is not None else None
    if answered is None or answered.heard_key is None or desk.journal.changes(answered.id):
        return False
    newest = desk.journal.by_heard(answered.heard_key)
    return newest is not None and newest.id > answered.id


def _button_at(rows: tuple[tuple[Button, ...], ...], row: int, place: int) -> Button | None:
    return rows[row][place] if row < len(rows) and place < len(rows[row]) else None


def _taken(desk: Desk, parcel_id: int, button: Button, place: tuple[int, int], meaning: Meaning) -> bool:
    """Whether this button, or one of those it is a choice among, was tapped before and what it did still stands.

    Tasks, goals and undoing know their own state and say more about it.
    """
    if isinstance(meaning, Close | Drop | Push | Reopen | Undo | Show):
        return False
    for tap in desk.taps.of(parcel_id):
        if tap.entry_id is None:
            continue
        stands = desk.journal.get(tap.entry_id).undone_by is None and desk.journal.changes(tap.entry_id)
        if stands and (button.one_of or (tap.row, tap.place) == place):
            return True
    return False
