"""Two people on one database: with the other's ids, words, buttons and messages, nothing of theirs is read and nothing is changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.actions.act import ACTIONS, act
from bot.actions.aiming import aimed
from bot.actions.knowing import context_of
from bot.heard import Edited, Heard, Said, Tapped, button_data
from bot.language.meaning import Undo
from bot.voice.manners import manners_of
from bot.voice.say import say
from storage.desk import Desk
from storage.errors import StorageError
from storage.records import Carried, Parcel
from tests.stage import Stage
from tests.storage.given import Tables, still_owed, tables
from tests.voice.made_replies import Making

VICTIM, STRANGE = "stage:victim", "stage:other"
SECRET = "zanzibar"
WEEK = (
    "category zanzibaring personal alias zanzibars",
    "task zanzibar spokes 30m workshop",
    "task zanzibar chains",
    "goal zanzibar chapter learning 3h",
    "month goal zanzibar shed home",
    "zanzibar dentist tomorrow 15:00",
    "zanzibar shift every tue 13-17",
    "routine zanzibar stretching 30m every day 7-9",
    "target zanzibaring at least 5h",
    "2h workshop - zanzibar wheel",
    "mark zanzibar minor",
    "plan",
    "accept",
    "in zanzibaring",
    "rate workshop 14.50 from 1 march",
    "i was sick yesterday",
    "handed in museum",
    "erase everything",
)
CALENDAR = "\r\n".join(
    (
        *("BEGIN:VCALENDAR", "VERSION:2.0", "X-WR-CALNAME:Zanzibar", "BEGIN:VEVENT", "UID:z1", "SUMMARY:Zanzibar regatta"),
        *("DTSTART:20260304T120000Z", "DTEND:20260304T130000Z", "END:VEVENT", "END:VCALENDAR", ""),
    )
).encode()
TITLES = ("zanzibar spokes", "zanzibar chains", "zanzibar chapter", "zanzibar dentist", "zanzibaring", "Zanzibar", "1", "museum")
ORDERS = (
    *("undo", "no, 2h", "make it museum", "done", "done 1", "push 1", "drop zanzibar spokes", "today", "week", "month", "goals", "hours"),
    *("hours zanzibaring", "settings", "calendars", "timesheet museum", "move zanzibar dentist to fri 16:00", "cancel zanzibar shift"),
    *("remove calendar zanzibar", "out", "accept", "swap 1 and 2", "2h zanzibaring", "closed 1 in 45m", "carry 1", "reopen 1", "plan"),
)


@dataclass(frozen=True)
class Two:
    """The attacker's stage, the victim's, and all rows of the victim as they must stay."""

    attacker: Stage
    victim: Stage
    rows: Tables
    parcels: tuple[Parcel, ...]


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Two]:
    folder: Path = tmp_path_factory.mktemp("two")
    victim = Stage(folder, me=VICTIM)
    for words in WEEK:
        victim.say(words)
    victim.send("zanzibar.ics", CALENDAR)
    victim.at("2026-03-02 21:00")
    parcels = tuple(parcel for parcel in victim.parcels() if parcel.address == VICTIM)
    for parcel in parcels:
        victim.house.database.outbox.note_and_take([Carried(parcel.id, f"{parcel.id}")], (), victim.now)
    attacker = Stage(folder, me=STRANGE, at="2026-03-02 21:00")
    kept = tables(victim.path, person_id=victim.person_id)
    yield Two(attacker, victim, of_one(kept), parcels)
    attacker.close()
    victim.close()


def of_one(rows: Tables) -> Tables:
    """Without the tables that are no person's."""
    return {name: found for name, found in rows.items() if name not in {"handled", "forecasts", "alembic_version", "pairing", "erased"}}


def demand_untouched(two: Two) -> None:
    assert of_one(tables(two.victim.path, person_id=two.victim.person_id)) == two.rows


def demand_nothing_told(words: str, said: str) -> None:
    """Nothing of the victim's is in the answer beyond what the question itself held."""
    assert SECRET not in words.lower() or SECRET in said.lower()
    for title in ("spokes", "chains", "chapter", "shed", "dentist", "stretching", "wheel", "regatta"):
        assert title not in words.lower() or title in said.lower() or title in KNOWN_TO_ALL


KNOWN_TO_ALL = frozenset({"chapter", "spokes", "dentist"})
"""Words that help and examples hold for everyone."""


def test_the_victim_has_something_everywhere(two: Two) -> None:
    empty = {name for name, rows in two.rows.items() if not rows}
    assert empty <= {"calendar_visits", "sections", "sent_files", "silences", "taps", "told_weather"}
    assert len(two.parcels) > len(WEEK)


@pytest.mark.parametrize("kind", ACTIONS, ids=lambda kind: kind.__name__)
@settings(max_examples=15, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_each_action_with_ids_and_words_of_the_others(two: Two, kind: type, data: st.DataObject) -> None:
    meaning: Any = data.draw(Making(st.sampled_from(TITLES), st.integers(1, 60)).made(kind))
    attempt(two, lambda desk: act(desk, meaning, text="x", heard_key="k"), repr(meaning))


@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(1, 200), st.booleans())
def test_no_entry_of_the_others_is_undone(two: Two, entry: int, aims: bool) -> None:
    attempt(two, lambda desk: act(desk, aimed(desk, Undo(), entry) if aims else Undo(entry), heard_key="k"), "")


def attempt(two: Two, action: Any, said: str) -> None:
    """Does it at the attacker's desk and gives it up at the end, so that each try starts alike."""

    def trying(desk: Desk) -> None:
        demand_nothing_told(_worded(desk, action), said)
        raise _GaveUp

    with pytest.raises(_GaveUp):
        two.attacker.look(trying)
    demand_untouched(two)


class _GaveUp(Exception):
    """The try is over."""


def _worded(desk: Desk, action: Any) -> str:
    try:
        reply = action(desk)
    except (StorageError, ValueError, KeyError, ArithmeticError) as refused:
        # The database itself would not have one person's row name another's; and a value that language never makes may break an action.
        return str(refused)
    message = say(reply, manners_of(desk.person, desk.now), lambda: context_of(desk))
    return message.text + " ".join(tap.label for row in message.buttons for tap in row)


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_no_button_reply_or_edit_reaches_the_other(two: Two, data: st.DataObject) -> None:
    heard = data.draw(st.one_of(taps(two), replies(two), edits(two)))
    key = f"{data.draw(st.uuids())}"
    heard = type(heard)(**{**{name: getattr(heard, name) for name in heard.__slots__}, "key": key})
    two.attacker.house.engine.receive(heard)
    answer = still_owed(two.attacker.house.database)
    mine = [parcel for parcel in answer if parcel.address == STRANGE]
    assert len(answer) == len(mine)
    if mine:
        demand_nothing_told(mine[-1].text, getattr(heard, "text", ""))
        two.attacker.house.database.outbox.note_and_take([Carried(mine[-1].id, f"{mine[-1].id}")], (), two.attacker.now)
    demand_untouched(two)


def taps(two: Two) -> st.SearchStrategy[Heard]:
    """Taps on every place of the other's messages, and on forged ones."""
    places = [
        button_data(parcel.id, row, place)
        for parcel in two.parcels
        for row, buttons in enumerate(parcel.buttons)
        for place in range(len(buttons))
    ]
    forged = st.one_of(st.text(max_size=64), st.from_regex(r"-?[0-9]{1,12}\.-?[0-9]{1,4}\.-?[0-9]{1,4}", fullmatch=True))
    return st.one_of(st.sampled_from(places), forged).map(lambda text: Tapped(STRANGE, "", text))


def replies(two: Two) -> st.SearchStrategy[Heard]:
    """Replies to the other's messages, by the number that the chat service gave those."""
    numbers = st.sampled_from([f"{parcel.id}" for parcel in two.parcels])
    return st.builds(lambda text, number: Said(STRANGE, "", f"mine:{text}", text, number), st.sampled_from(ORDERS), numbers)


def edits(two: Two) -> st.SearchStrategy[Heard]:
    """Edits that claim to be of the other's messages."""
    keys = st.integers(1, 40).map(lambda number: f"{VICTIM}:{number}")
    return st.builds(lambda text, key: Edited(STRANGE, "", key, text), st.sampled_from(ORDERS), keys)
