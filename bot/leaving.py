"""Erasing by chat: asked for in words, confirmed by a tap on a fresh message, done in one transaction."""

from __future__ import annotations

from datetime import timedelta
from functools import partial

from bot.actions.knowing import context_of
from bot.heard import Tapped, button_place
from bot.language.wire import from_json
from bot.voice.manners import manners_of
from bot.voice.privacy_said import EVERYTHING
from bot.voice.replies import Erased
from bot.voice.say import say
from storage.desk import Desk
from storage.records import Parcel, ParcelKind

WAYS = frozenset(
    "/erase|erase|erase me|erase everything|erase all|erase all my data|erase my data|delete everything|delete all my data|"
    "delete my data|delete me|forget me|forget everything".split("|")
)
FRESH = timedelta(hours=1)
"""How long the button erases: tapping an old one does no harm."""


def asks_to_leave(text: str) -> bool:
    """Whether the text asks to have everything erased, and nothing else."""
    return " ".join(text.lower().split()).rstrip(".!") in WAYS


def confirms(desk: Desk, heard: Tapped) -> bool:
    """Whether the tap is on the person's own fresh button that erases, of a question that was not answered with keeping it all."""
    place = button_place(heard.data)
    parcel = desk.outbox.find(place[0]) if place else None
    if place is None or parcel is None or desk.now - parcel.written > FRESH or desk.taps.of(parcel.id):
        return False
    buttons = [button for row in parcel.buttons[place[1] : place[1] + 1] for button in row[place[2] : place[2] + 1]]
    return any(from_json(button.does) == EVERYTHING for button in buttons)


def bid_farewell(desk: Desk) -> None:
    """Erases the person of this desk and owes their address the last word."""
    last_word = say(Erased(), manners_of(desk.person, desk.now), partial(context_of, desk)).text
    desk.leaving.erase(Parcel(0, None, desk.person.address, ParcelKind.MESSAGE, last_word, desk.now))
