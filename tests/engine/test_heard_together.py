"""What is heard together goes the same way as what is heard alone."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from bot.assemble import assemble
from bot.heard import Heard, Said, Tapped
from bot.outside.geocoding import NoGeocoding
from bot.settings import sample_settings
from bot.voice.say import UNWELCOME
from storage.records import Blocked, Parcel
from tests.stage import ME, Stage


def said(number: int, text: str, who: str = ME) -> Said:
    return Said(who, f"together-{number}", f"together-message-{number}", text)


def owed_for(stage: Stage, *heard: Heard) -> tuple[Parcel, ...]:
    """What is owed since for things heard together."""
    before = len(stage.parcels())
    stage.house.engine.receive_all(heard)
    return stage.parcels()[before:]


def test_each_is_answered_in_order_and_once(stage: Stage) -> None:
    both = said(1, "2h workshop"), said(2, "1h museum")
    texts = [parcel.text for parcel in owed_for(stage, *both, both[0])]
    assert ["Workshop today: 2 h" in texts[0], "Museum today: 1 h" in texts[1]] == [True, True]
    assert len(texts) == 2


def test_who_had_blocked_the_bot_is_told_on_their_return(stage: Stage) -> None:
    stage.house.database.outbox.note_and_take((Blocked(0, ME),), (), stage.now)
    texts = [parcel.text for parcel in owed_for(stage, said(1, "2h workshop"), said(2, "1h museum"))]
    assert ["I can write to you again" in text for text in texts] == [True, False, False]


def test_marks_that_turn_text_around_are_taken_out(stage: Stage) -> None:
    owed = owed_for(stage, said(1, "task chain\u202e rings"), said(2, "2h workshop"))
    assert "\u202e" not in "".join(parcel.text for parcel in owed)
    assert stage.look(lambda desk: [task.title for task in desk.tasks.all()]) == ["chain rings"]


def test_the_button_that_erases_erases_whatever_comes_with_it(stage: Stage) -> None:
    stage.say("2h workshop")
    stage.say("erase everything")
    tap = Tapped(ME, "together-2", stage.button("Erase everything"))
    stage.house.engine.receive_all((said(1, "1h museum"), tap))
    assert stage.house.database.people.all() == ()


def test_who_was_taken_off_the_allowed_is_turned_away(tmp_path: Path, url: str) -> None:
    allowed = replace(sample_settings().telegram, allowed=(102,))
    stage = Stage(tmp_path, replace(sample_settings(), telegram=allowed), me="telegram:101", url=url)
    database = stage.house.database
    house = assemble(
        stage.settings, database, lambda address: address == "telegram:102", lambda: stage.now, stage.skies, NoGeocoding(), stage.links
    )
    house.engine.receive_all((said(1, "2h workshop", stage.me), said(2, "1h museum", stage.me)))
    assert [parcel.text for parcel in stage.parcels()][-1:] == [UNWELCOME]
    assert stage.look(lambda desk: desk.stints.all()) == ()
    stage.close()
