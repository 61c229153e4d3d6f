"""What is done a little later: a forecast that was missing, a place to look up."""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.actions import rounds
from bot.actions.setting import keep_place
from bot.actions.today import today
from bot.actions.welcome import ask_again, on_from_place
from bot.outside.faults import PlacesUnavailable
from bot.owing import owe
from bot.rounds.lookouts import Lookouts
from bot.voice.replies import PlaceUnknown, Reply
from storage.database import Database
from storage.desk import Desk
from storage.records import Person, Round, RoundKind, Step

RETRY_EVERY = timedelta(minutes=10)
RETRY_FOR = timedelta(hours=2)
"""How long a morning message without a forecast is still completed."""


async def forecast_again(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """Rewrites the morning message once there is a forecast; tries for two hours."""
    found = person.place is not None and await lookouts.refresh_forecast(database, person.place, now)
    with database.desk(person.id, now) as desk:
        parcel = desk.outbox.get(int(due.detail))
        if today(desk).isoformat() != due.key[:10]:
            desk.rounds.claim(due.id)
        elif found and desk.rounds.claim(due.id):
            owe(desk, rounds.morning_again(desk), round=RoundKind.MORNING.value, edits=parcel.id)
        elif now + RETRY_EVERY - parcel.written <= RETRY_FOR:
            desk.rounds.replan(due.kind, due.key, now + RETRY_EVERY)
        else:
            desk.rounds.claim(due.id)


async def seek_place(database: Database, lookouts: Lookouts, person: Person, due: Round, now: datetime) -> None:
    """Looks up the place whose name the person wrote, and sets place and zone."""
    try:
        found = await lookouts.find_place(due.detail)
        reachable = True
    except PlacesUnavailable:
        found, reachable = None, False
    with database.desk(person.id, now) as desk:
        if not desk.rounds.claim(due.id):
            return
        if found is None:
            owe(desk, _on_without(desk, PlaceUnknown(due.detail, reachable, desk.person.zone)))
        else:
            name = f"{found.name}, {found.country}" if found.country else found.name
            kept = keep_place(desk, name, found.latitude, found.longitude, found.zone)
            owe(desk, on_from_place(desk, kept), due.key)


def _on_without(desk: Desk, unknown: PlaceUnknown) -> Reply:
    """Where the first conversation waits for a place, the question once more; a zone answers it as well."""
    return ask_again(desk, unknown) if desk.person.step is Step.PLACE else unknown
