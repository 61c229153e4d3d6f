"""One thing heard, one transaction: exactly once, for the right person, and for nobody else."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from bot.door import Door
from bot.heard import Said, SentFile, Tapped, button_data, button_place
from bot.pairing import hashed
from bot.voice.say import UNWELCOME
from storage.records import PairingCode, Person
from tests.stage import Stage

OTHER = "stage:other"
STRANGER = "stage:stranger"


def minutes(stage: Stage) -> object:
    return stage.look(lambda desk: [each.minutes for each in desk.stints.all()])


def test_a_delivery_that_comes_again_does_nothing(stage: Stage) -> None:
    heard = Said(stage.me, "update:1", "message:1", "2h workshop")
    assert len(stage.hear(heard).parcels) == 1
    assert stage.hear(heard).parcels == ()
    assert minutes(stage) == [120]


def test_an_older_delivery_that_comes_after_a_newer_one_still_counts(stage: Stage) -> None:
    stage.hear(Said(stage.me, "update:9", "message:9", "2h workshop"))
    stage.hear(Said(stage.me, "update:3", "message:3", "1h workshop"))
    assert minutes(stage) == [120, 60]


def test_when_handling_fails_nothing_is_kept_and_the_delivery_may_come_again(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    heard = Said(stage.me, "update:1", "message:1", "2h workshop")

    def fail(*given: object, **named: object) -> None:
        raise RuntimeError

    with monkeypatch.context() as broken:
        broken.setattr("bot.engine.owe", fail)
        with pytest.raises(RuntimeError):
            stage.hear(heard)
    assert minutes(stage) == []
    stage.hear(heard)
    assert minutes(stage) == [120]


def test_a_delivery_set_aside_tells_the_person_and_is_not_handled_later(stage: Stage) -> None:
    heard = Said(stage.me, "update:1", "message:1", "2h workshop")
    stage.house.engine.set_aside(heard, RuntimeError("with a secret in it"))
    assert stage.parcels()[-1].text == "Something went wrong with that, so nothing changed. Please send it again."
    stage.hear(heard)
    assert minutes(stage) == []


def test_setting_aside_what_a_stranger_sent_tells_nobody(stage: Stage) -> None:
    stage.house.engine.set_aside(Said(STRANGER, "update:1", "message:1", "hello"), RuntimeError())
    assert stage.parcels() == ()


def test_a_very_long_message_is_refused_in_one_sentence(stage: Stage) -> None:
    assert stage.say("2h workshop, " * 400).text.startswith("That message is too long")
    assert minutes(stage) == []


def test_a_file_that_cannot_be_read_is_named(stage: Stage) -> None:
    answer = stage.hear(SentFile(stage.me, "update:1", "message:1", "holiday.bin", b"\x00"))
    assert "holiday.bin" in answer.text


@pytest.mark.parametrize("name", ["", "\u202e", "\u200b\u202e"])
def test_a_calendar_whose_file_has_no_name_to_be_seen_is_kept_all_the_same(stage: Stage, name: str) -> None:
    content = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nEND:VCALENDAR\r\n"
    stage.hear(SentFile(stage.me, "update:1", "message:1", name, content))
    assert stage.look(lambda desk: [each.name for each in desk.calendars.all()]) == ["calendar"]


@pytest.mark.parametrize("data", ["", "x", "1", "1.0", "1.0.0.0", "-1.0.0", "99.0.0", "1.9.0", "1.0.9", "9" * 40 + ".0.0", "²." * 3])
def test_a_tap_that_names_no_button_changes_nothing(stage: Stage, data: str) -> None:
    stage.say("2h workshop")
    assert stage.hear_tap(data).text == "That button is no longer of use. Nothing changed."
    assert minutes(stage) == [120]


def test_a_tap_cannot_reach_the_buttons_of_another_person(stage: Stage) -> None:
    stage.say("2h workshop")
    mine = stage.button("Undo")
    stage.house.door.admit(OTHER, stage.now)
    answer = stage.hear(Tapped(OTHER, "update:77", mine))
    assert answer.text == "That button is no longer of use. Nothing changed."
    assert minutes(stage) == [120]


def test_button_data_reads_back_and_fits_the_platform() -> None:
    assert button_place(button_data(12345678901, 99, 7)) == (12345678901, 99, 7)
    assert len(button_data(99_999_999_999, 99, 99)) <= 64


def closed_door(stage: Stage) -> Door:
    return Door(stage.house.database, stage.settings, lambda address: False)


def said(text: str, key: str = "update:1") -> Said:
    return Said(STRANGER, key, key, text)


def test_a_stranger_gets_one_neutral_line_a_day(stage: Stage) -> None:
    door = closed_door(stage)
    for number in range(3):
        assert door.who(said("hello", f"update:{number}"), stage.now) is None
    assert [(parcel.address, parcel.person_id) for parcel in stage.parcels()] == [(STRANGER, None)]
    door.who(said("hello", "update:9"), stage.now + timedelta(days=1, minutes=1))
    assert len(stage.parcels()) == 2


def offer(stage: Stage, code: str = "ABCD2345") -> None:
    stage.house.database.pairing.replace(PairingCode(hashed(code), stage.now, stage.now + timedelta(days=1), 0))


def test_who_knows_the_pairing_code_is_admitted_once(stage: Stage) -> None:
    door = closed_door(stage)
    offer(stage)
    person = door.who(said("/start ABCD2345"), stage.now)
    assert isinstance(person, Person)
    assert stage.house.database.pairing.current() is None
    assert door.who(Said("stage:third", "k", "k", "/start ABCD2345"), stage.now) is None


def test_a_message_of_many_things_has_no_more_buttons_than_the_platform_shows(stage: Stage) -> None:
    """100 in all: python-telegram-bot's constants (InlineKeyboardMarkupLimit.TOTAL_BUTTON_NUMBER)."""
    labels = stage.say("; ".join([*["help"] * 17, "1h family"])).labels
    assert labels[-1] == "Undo"
    assert 90 < len(labels) <= 100


@pytest.mark.parametrize("text", ["/start", "/start WRONG", "ABCD2345", "/start ABCD2345 now"])
def test_anything_but_the_code_is_turned_away(stage: Stage, text: str) -> None:
    offer(stage)
    assert closed_door(stage).who(said(text), stage.now) is None


def test_the_code_ends_after_ten_wrong_tries(stage: Stage) -> None:
    door = closed_door(stage)
    offer(stage)
    for number in range(10):
        door.who(said(f"/start WRONG{number}", f"update:{number}"), stage.now)
    assert door.who(said("/start ABCD2345", "update:99"), stage.now) is None


def test_the_code_ends_after_a_day(stage: Stage) -> None:
    offer(stage)
    assert closed_door(stage).who(said("/start ABCD2345"), stage.now + timedelta(days=1, seconds=1)) is None


def test_a_newcomer_has_what_the_settings_give(stage: Stage) -> None:
    names = stage.look(lambda desk: [each.name for each in desk.categories.all()])
    assert names == ["workshop", "museum", "learning", "family", "home"]
    assert stage.look(lambda desk: len(desk.jobs.all())) == 2


def test_who_was_taken_off_the_allowed_ids_is_turned_away_and_nothing_of_theirs_is_lost(tmp_path: Path, url: str) -> None:
    made = Stage(tmp_path, me="telegram:2", url=url)
    made.say("2h workshop")
    settings = replace(made.settings, telegram=replace(made.settings.telegram, allowed=(1,)))
    door = Door(made.house.database, settings, "telegram:1".__eq__)
    assert door.who(Said("telegram:2", "k1", "k1", "hours"), made.now) is None
    assert made.parcels()[-1].text == UNWELCOME
    offer(made)
    assert door.who(Said("telegram:2", "k2", "k2", "/start ABCD2345"), made.now) is None
    assert closed_door(made).who(Said("telegram:2", "k3", "k3", "hours"), made.now) is not None
    assert minutes(made) == [120]
    made.close()
