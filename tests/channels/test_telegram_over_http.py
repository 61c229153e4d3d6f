"""The Telegram channel against the Bot API stand-in: real HTTP on loopback, an engine written by hand."""

from __future__ import annotations

import asyncio
import io
import logging
import time
from collections.abc import Callable, Coroutine, Sequence
from datetime import UTC, datetime
from typing import Any

import pytest
from PIL import Image

from bot.channels import telegram, telegram_carrier, telegram_hearing, telegram_line, telegram_listener
from bot.channels.telegram import talk
from bot.channels.telegram_errors import BadToken, TwoPollers
from bot.channels.telegram_line import Line
from bot.heard import Edited, Heard, Located, Said, SentFile, Tapped
from bot.rounds.pace import UNLIMITED, Pace
from bot.voice.post_said import PERHAPS_A_REPEAT
from storage.records import Carried, Parcel, ParcelKind, ParcelState
from tests.channels.standin import PERSON, TOKEN, Shown, StandIn
from tests.channels.standin_http import Fault, garbles, hangs, refuses, resets, too_many
from tests.rounds.memory_outbox import MemoryOutbox, message, rewrite

CHAT = f"telegram:{PERSON}"


class EchoEngine:
    """Owes an answer to each thing heard, once a key; fails on what a test tells it to."""

    def __init__(self) -> None:
        self.outbox = MemoryOutbox()
        self.heard: list[Heard] = []
        self.aside: list[str] = []
        self.keys: set[str] = set()
        self.failures: list[Exception] = []

    def receive(self, heard: Heard) -> None:
        if heard.key in self.keys:
            return
        if self.failures:
            raise self.failures.pop(0)
        self.keys.add(heard.key)
        self.heard.append(heard)
        self.outbox.owe(message(f"heard {type(heard).__name__} {getattr(heard, 'text', '')}".strip(), labels=("Undo",)))

    def receive_all(self, heard: Sequence[Heard]) -> None:
        for each in heard:
            self.receive(each)

    def set_aside(self, heard: Heard, error: Exception) -> None:
        self.keys.add(heard.key)
        self.aside.append(f"{heard.key} {type(error).__name__}")


class Day:
    """One run of the channel against one stand-in, for as long as the test's story lasts."""

    def __init__(self, standin: StandIn) -> None:
        self.standin = standin
        self.engine = EchoEngine()
        self.ticks = 0

    def live(self, story: Callable[[], object], commands: Sequence[tuple[str, str]] = ()) -> float:
        """Runs the channel while ``story`` goes on in a thread; gives the seconds it then took to stop."""
        return asyncio.run(self._live(story, commands))

    async def _live(self, story: Callable[[], object], commands: Sequence[tuple[str, str]]) -> float:
        stop = asyncio.Event()
        talking = asyncio.create_task(self._talk(stop, commands))
        telling = asyncio.create_task(asyncio.to_thread(story))
        await asyncio.wait([talking, telling], return_when=asyncio.FIRST_COMPLETED)
        began = time.monotonic()
        stop.set()
        await talking
        await telling
        return time.monotonic() - began

    def live_until_shown(self, part: str) -> Shown:
        """Runs the channel until a message with ``part`` in it is shown, and gives that."""
        self.live(lambda: self.standin.wait_for_message(part))
        return self.standin.wait_for_message(part)

    def _talk(self, stop: asyncio.Event, commands: Sequence[tuple[str, str]]) -> Coroutine[Any, Any, None]:
        line = Line(self.standin.token, self.standin.url)
        pace = Pace(UNLIMITED, None)
        return talk(line, self.engine, self.engine.outbox, self._tick, lambda: datetime.now(UTC), stop, commands, pace)

    async def _tick(self) -> None:
        self.ticks += 1


@pytest.fixture
def day() -> Any:
    with StandIn() as standin:
        yield Day(standin)


@pytest.fixture(autouse=True)
def short_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PTB_TIMEDELTA", "1")
    monkeypatch.setattr(telegram_line, "READ_SECONDS", 0.5)


def test_each_kind_of_update_is_heard_and_answered(day: Day) -> None:
    standin = day.standin

    def story() -> None:
        standin.say("3h workshop")
        words = standin.last_message_id
        standin.wait_for_message("heard Said 3h workshop")
        standin.tap("Undo")
        standin.wait_for_message("heard Tapped")
        standin.edit(words, "2h workshop")
        standin.wait_for_message("heard Edited 2h workshop")
        standin.locate(51.05, 3.72)
        standin.wait_for_message("heard Located")
        standin.send_file("calendar.ics", b"BEGIN:VCALENDAR")
        standin.wait_for_message("heard SentFile")
        standin.wait_for(lambda: len(standin.answered_taps) == 1)

    day.live(story)
    said, tapped, edited, located, sent = day.engine.heard
    assert said == Said(CHAT, "telegram:1000", f"{CHAT}:1", "3h workshop")
    assert tapped == Tapped(CHAT, "telegram:1001", "1.0.0")
    assert edited == Edited(CHAT, "telegram:1002", f"{CHAT}:1", "2h workshop")
    assert located == Located(CHAT, "telegram:1003", 51.05, 3.72)
    assert isinstance(sent, SentFile)
    assert (sent.name, sent.content) == ("calendar.ics", b"BEGIN:VCALENDAR")


def test_messages_have_bold_words_buttons_and_no_sound_when_silent(day: Day) -> None:
    parcel = message("🚲 Museum, Tue 3 Mar", labels=("Close 1", "Push 1"), silent=True)
    day.engine.outbox.owe(Parcel(**{**_fields(parcel), "bold": ((2, 8),)}))
    day.live(lambda: day.standin.wait_for_message("Museum"))
    (shown,) = day.standin.log
    assert shown.silent
    assert shown.buttons == ((("Close 1", "1.0.0"), ("Push 1", "1.0.1")),)
    # The bicycle is one code point and two UTF-16 units, so the bold word starts at 3.
    assert [(entity["type"], entity["offset"], entity["length"]) for entity in shown.entities] == [("bold", 3, 6)]


def _fields(parcel: Parcel) -> dict[str, Any]:
    return {name: getattr(parcel, name) for name in Parcel.__dataclass_fields__}


def test_an_edit_rewrites_the_message_and_an_edit_that_changes_nothing_counts_as_done(day: Day) -> None:
    day.engine.outbox.owe(message("no forecast yet"))
    day.engine.outbox.owe(rewrite("rain from 14:00", edits=1))
    day.engine.outbox.owe(rewrite("rain from 14:00", edits=1))
    day.live(lambda: day.standin.wait_for(lambda: not day.engine.outbox.owed(datetime.now(UTC), 9)))
    assert day.standin.texts() == ["rain from 14:00"]
    assert {parcel.carried_as for parcel in day.engine.outbox.parcels.values()} == {"1"}


def test_an_edit_of_a_message_that_is_gone_is_set_aside(day: Day) -> None:
    earlier = day.engine.outbox.owe(message("deleted by the person"))
    day.engine.outbox.note_and_take([Carried(earlier.id, "777")], (), datetime.now(UTC))
    day.engine.outbox.owe(rewrite("nobody will see this", edits=earlier.id))
    day.live(lambda: day.standin.wait_for(lambda: day.engine.outbox.get(2).state is ParcelState.ASIDE))


def test_a_picture_is_sent_as_a_photo_and_any_other_file_as_a_document(day: Day) -> None:
    made = io.BytesIO()
    Image.new("1", (3, 2)).save(made, "PNG")
    contents = {"week.png": made.getvalue(), "torn.png": made.getvalue()[:20], "march.csv": b"hours"}
    for name, content in contents.items():
        file = {
            **_fields(message(f"Here is {name}")),
            "kind": ParcelKind.FILE,
            "file_name": name,
            "file_bytes": content,
        }
        day.engine.outbox.owe(Parcel(**file))
    day.live(lambda: day.standin.wait_for(lambda: len(day.standin.log) == 3))
    assert [(shown.method, shown.file_name, shown.file_bytes, shown.text) for shown in day.standin.log] == [
        ("sendphoto", "week.png", contents["week.png"], "Here is week.png"),
        ("senddocument", "torn.png", contents["torn.png"], "Here is torn.png"),
        ("senddocument", "march.csv", b"hours", "Here is march.csv"),
    ]


def test_a_text_that_is_too_long_is_refused_before_it_is_sent(day: Day) -> None:
    day.engine.outbox.owe(message("🚲" * 2049))
    day.live(lambda: day.standin.wait_for(lambda: day.engine.outbox.get(1).state is ParcelState.ASIDE))
    assert not [call for call in day.standin.calls if call.method == "sendmessage"]


def test_the_menu_of_commands_is_filled(day: Day) -> None:
    day.live(lambda: day.standin.wait_for(lambda: bool(day.standin.commands)), commands=[("help", "What I understand")])
    assert day.standin.commands == [{"command": "help", "description": "What I understand"}]


def test_an_update_is_confirmed_only_after_the_engine_had_it(day: Day) -> None:
    confirmed_at_hearing: list[int] = []
    real_receive = day.engine.receive

    def receive(heard: Heard) -> None:
        confirmed_at_hearing.append(day.standin.confirmed)
        real_receive(heard)

    day.engine.receive = receive  # type: ignore[method-assign]
    first, second = day.standin.say("one"), day.standin.say("two")
    day.live(lambda: day.standin.wait_until_confirmed(second))
    assert confirmed_at_hearing == [0, 0]
    assert [first, second] == [1000, 1001]


def test_an_update_whose_handling_fails_at_first_is_handled_once(day: Day, monkeypatch: pytest.MonkeyPatch) -> None:
    day.engine.failures = [KeyError("a mistake"), KeyError("of order")]
    number = day.standin.say("3h workshop")
    day.live(lambda: day.standin.wait_until_confirmed(number))
    assert [heard.key for heard in day.engine.heard] == [f"telegram:{number}"]
    assert not day.engine.aside


def test_an_update_that_cannot_be_handled_is_set_aside_and_the_next_one_is_heard(day: Day, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(telegram_hearing, "TRIES", 2)
    # Once with the other one, and twice alone.
    day.engine.failures = [KeyError("a mistake")] * 3
    number = day.standin.say("poison")
    day.standin.say("3h workshop")
    day.live(lambda: day.standin.wait_for_message("3h workshop"))
    assert day.engine.aside == [f"telegram:{number} KeyError"]


@pytest.mark.parametrize(
    "fault",
    [too_many(1), refuses(502, "Bad Gateway"), hangs(1.0, accepted=False), resets(accepted=False), garbles(accepted=False)],
    ids=["429", "502", "time-out", "reset", "garbage"],
)
def test_a_message_that_was_not_accepted_arrives_later_and_once(day: Day, fault: Fault) -> None:
    day.standin.fault("sendMessage", fault)
    day.standin.say("3h workshop")
    day.live(lambda: day.standin.wait_for_message("heard Said"))
    (text,) = day.standin.texts()
    assert text.endswith("heard Said 3h workshop")


@pytest.mark.parametrize(
    "fault", [hangs(1.0, accepted=True), resets(accepted=True), garbles(accepted=True)], ids=["time-out", "reset", "garbage"]
)
def test_a_message_that_was_accepted_without_our_learning_of_it_comes_twice_at_most(day: Day, fault: Fault) -> None:
    day.standin.fault("sendMessage", fault)
    day.standin.say("3h workshop")
    day.live(lambda: day.standin.wait_for(lambda: day.engine.outbox.owed(datetime.now(UTC), 1) == [] and bool(day.engine.outbox.parcels)))
    day.live(lambda: day.standin.wait_for(lambda: day.engine.outbox.get(1).state is ParcelState.SENT))
    assert day.standin.texts() == ["heard Said 3h workshop", f"{PERHAPS_A_REPEAT}\nheard Said 3h workshop"]


@pytest.mark.parametrize("seconds", [0, 0.2, 10**6, 10**15], ids=["none", "a fraction", "days", "for ever"])
def test_whatever_wait_is_asked_for_the_message_arrives(day: Day, seconds: float, monkeypatch: pytest.MonkeyPatch) -> None:
    for part in (telegram_carrier, telegram_listener):
        monkeypatch.setattr(part, "LONGEST_ASKED_SECONDS", 0.5)
    day.standin.fault("sendMessage", too_many(seconds))
    day.standin.fault("getUpdates", too_many(seconds))
    day.standin.say("3h workshop")
    day.live(lambda: day.standin.wait_for_message("heard Said"))


def test_a_message_that_is_refused_in_full_goes_as_bare_words(day: Day) -> None:
    day.standin.fault("sendMessage", refuses(400, "Bad Request: BUTTON_DATA_INVALID"))
    day.standin.say("3h workshop")
    shown = day.live_until_shown("heard Said")
    assert (shown.text, shown.buttons) == ("heard Said 3h workshop", ())


def test_a_message_that_is_refused_even_so_is_set_aside_and_the_next_one_goes(day: Day) -> None:
    day.standin.fault("sendMessage", *[refuses(400, "Bad Request: not to our taste")] * 2)
    day.standin.say("first")
    day.live(lambda: day.standin.wait_for(lambda: len(day.engine.outbox.parcels) == 1 and not day.engine.outbox.owed(datetime.now(UTC), 1)))
    day.standin.say("second")
    assert day.live_until_shown("second").text == "heard Said second"
    assert day.engine.outbox.get(1).state is ParcelState.ASIDE


def test_a_person_who_blocked_the_bot_gets_nothing_more_of_that_message(day: Day) -> None:
    day.standin.fault("sendMessage", refuses(403, "Forbidden: bot was blocked by the user"))
    day.standin.say("hello")
    day.live(lambda: day.standin.wait_for(lambda: [parcel.state for parcel in day.engine.outbox.parcels.values()] == [ParcelState.ASIDE]))


@pytest.mark.parametrize(
    "fault",
    [too_many(1), refuses(500, "Internal Server Error"), hangs(0.1, accepted=False), resets(accepted=False), garbles(accepted=False)],
    ids=["429", "500", "closed", "reset", "garbage"],
)
def test_polling_goes_on_after_any_trouble(day: Day, fault: Fault) -> None:
    day.standin.fault("getUpdates", fault)
    day.standin.say("still there?")
    day.live(lambda: day.standin.wait_for_message("still there?"))


def test_a_bot_without_network_at_its_start_waits_for_it() -> None:
    standin = StandIn()
    with standin:
        url = standin.url
    day = Day(standin)

    async def story() -> None:
        stop = asyncio.Event()
        line = Line(TOKEN, url)
        talking = asyncio.create_task(talk(line, day.engine, day.engine.outbox, day._tick, lambda: datetime.now(UTC), stop))
        await asyncio.sleep(0.3)
        assert not talking.done()
        stop.set()
        await talking

    asyncio.run(story())


def test_another_poller_ends_it_with_a_clear_error(day: Day) -> None:
    day.standin.fault("getUpdates", refuses(409, "Conflict: terminated by other getUpdates request"))
    with pytest.raises(TwoPollers):
        day.live(lambda: time.sleep(1))


def test_a_webhook_left_over_is_taken_down(day: Day) -> None:
    day.standin.fault("getUpdates", refuses(409, "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook"))
    day.standin.say("hello")
    day.live(lambda: day.standin.wait_for_message("hello"))
    assert "deletewebhook" in [call.method for call in day.standin.calls]


@pytest.mark.parametrize("status", [401, 404])
def test_a_token_that_telegram_does_not_know_ends_it_with_a_clear_error(day: Day, status: int) -> None:
    day.standin.fault("getUpdates", refuses(status, "Unauthorized"))
    with pytest.raises(BadToken) as caught:
        day.live(lambda: time.sleep(1))
    assert TOKEN not in repr(caught.value) + str(caught.value.__cause__)


def test_stopping_takes_less_than_five_seconds_and_delivers_what_is_owed(day: Day) -> None:
    def story() -> None:
        day.standin.wait_for(lambda: any(call.method == "getupdates" for call in day.standin.calls))
        day.engine.outbox.owe(message("owed at the last moment"))

    assert day.live(story) < 5
    assert day.standin.texts() == ["owed at the last moment"]


def test_stopping_does_not_wait_for_a_service_that_hangs(day: Day, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(telegram_line, "READ_SECONDS", 60)
    day.standin.fault("sendMessage", *[hangs(8, accepted=False)] * 3)
    day.engine.outbox.owe(message("hangs"))
    assert day.live(lambda: day.standin.wait_for(lambda: any(call.method == "sendmessage" for call in day.standin.calls))) < 5
    assert day.engine.outbox.get(1).state is ParcelState.OWED


def test_the_alarm_is_looked_at_from_the_start(day: Day) -> None:
    day.live(lambda: day.standin.wait_for(lambda: day.ticks > 0))


def test_fetching_a_file_is_shown_as_typing(day: Day) -> None:
    day.standin.send_file("calendar.ics", b"BEGIN:VCALENDAR")
    day.live(lambda: day.standin.wait_for_message("SentFile"))
    assert [call.fields["action"] for call in day.standin.calls if call.method == "sendchataction"] == ["typing"]


def test_the_alarm_looks_as_soon_as_something_was_heard(day: Day, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(telegram, "TICK_SECONDS", 3600.0)
    day.standin.say("place Ghent")
    day.live(lambda: day.standin.wait_for(lambda: day.ticks >= 2))


def test_a_file_that_is_too_large_or_cannot_be_had_is_heard_without_content(day: Day) -> None:
    day.standin.send_file("huge.ics", b"small", size=21 * 1024 * 1024)
    day.standin.send_file("gone.ics", b"gone")
    day.standin.fault("getFile", refuses(400, "Bad Request: wrong file_id"))
    day.live(lambda: day.standin.wait_for(lambda: len(day.engine.heard) == 2))
    assert [heard.content for heard in day.engine.heard if isinstance(heard, SentFile)] == [b"", b""]


def test_the_token_reaches_no_log_not_even_with_debugging_on(day: Day, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    day.standin.fault("sendMessage", refuses(500, "Internal Server Error"), resets(accepted=False))
    day.standin.fault("getUpdates", garbles(accepted=False), refuses(500, "no"))
    day.standin.say("a secret word")
    day.live(lambda: day.standin.wait_for_message("a secret word", seconds=10))
    assert caplog.records
    assert TOKEN not in caplog.text
    assert "a secret word" not in caplog.text


def test_a_broken_update_is_passed_over_and_the_rest_of_its_batch_is_heard(day: Day) -> None:
    broken: list[dict[str, Any]] = [
        {"message": None},
        {"message": {"chat": 7}},
        {"callback_query": []},
        {"edited_message": {"text": []}},
        {"new": 1},
    ]
    for update in broken:
        day.standin.hand_out(update)
    day.standin.say("and now this")
    day.live(lambda: day.standin.wait_for_message("and now this"))
    assert len(day.engine.heard) == 1
