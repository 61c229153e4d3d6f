"""A stand-in for Telegram's Bot API on loopback, and the person at the other end of it.

A test writes, taps and listens through it; the bot speaks real HTTP to it.
What it refuses, and the words it does so with, are the Bot API's:
https://core.telegram.org/bots/api
"""

from __future__ import annotations

import time
from collections import defaultdict, deque
from collections.abc import Callable
from dataclasses import dataclass, replace
from threading import Condition
from typing import Any

from tests.channels.standin_http import Answer, Call, Fault, Service, refuses

TOKEN = "4711:a-token-that-must-never-show"
PERSON = 99


@dataclass(frozen=True, slots=True)
class Shown:
    """A message of the bot's as its chat shows it now. ``buttons`` are rows of (label, data)."""

    method: str
    chat: int
    message_id: int
    text: str
    buttons: tuple[tuple[tuple[str, str], ...], ...] = ()
    entities: tuple[dict[str, Any], ...] = ()
    silent: bool = False
    file_name: str | None = None
    file_bytes: bytes | None = None
    edits: int = 0

    @property
    def labels(self) -> list[list[str]]:
        return [[label for label, _ in row] for row in self.buttons]


class StandIn:
    """As a context it serves until the end. Every method may be called from any thread."""

    def __init__(self, token: str = TOKEN, first_update: int = 1000) -> None:
        self.token = token
        self.calls: list[Call] = []
        self.shown: dict[tuple[int, int], Shown] = {}
        self.log: list[Shown] = []
        self.answered_taps: list[str] = []
        self.commands: list[dict[str, str]] = []
        self.handed_out: Callable[[list[int]], None] = lambda _ids: None
        self.confirmed = 0
        self._changed = Condition()
        self._updates: deque[dict[str, Any]] = deque()
        self._files: dict[str, bytes] = {}
        self._faults: dict[str, deque[Fault]] = defaultdict(deque)
        self._next_update = first_update
        self._next_message = 0
        self._poll = 0
        self._service: Service | None = None

    def __enter__(self) -> StandIn:
        self._service = Service(self.token, self._respond)
        return self

    def __exit__(self, *_: object) -> None:
        assert self._service is not None
        self._service.close()

    @property
    def url(self) -> str:
        assert self._service is not None
        return self._service.url

    # What the person does. Each gives the update's number.

    def say(self, text: str, person: int = PERSON, **more: Any) -> int:
        """The person writes ``text``."""
        return self.hand_out({"message": {**self._message(person), "text": text, **more}})

    def edit(self, message_id: int, text: str, person: int = PERSON) -> int:
        """The person's message now reads ``text``."""
        message = {**self._message(person), "message_id": message_id, "edit_date": 1, "text": text}
        return self.hand_out({"edited_message": message})

    def tap(self, label: str, person: int = PERSON) -> int:
        """The person taps the button with this label in the newest message that has one."""
        for shown in sorted(self._chat(person), key=lambda shown: -shown.message_id):
            for row in shown.buttons:
                for its_label, data in row:
                    if its_label == label:
                        return self.tap_data(data, person, shown.message_id)
        raise AssertionError(f"no button {label!r} in {[shown.labels for shown in self._chat(person)]}")

    def tap_data(self, data: str, person: int = PERSON, message_id: int = 1) -> int:
        """A tap with any data at all."""
        message = {**self._message(person), "message_id": message_id}
        tap = {"id": f"tap-{self._next_update}", "from": message["from"], "chat_instance": "1", "message": message, "data": data}
        return self.hand_out({"callback_query": tap})

    def locate(self, latitude: float, longitude: float, person: int = PERSON) -> int:
        """The person shares a location."""
        return self.hand_out({"message": {**self._message(person), "location": {"latitude": latitude, "longitude": longitude}}})

    def send_file(self, name: str, content: bytes, person: int = PERSON, size: int | None = None) -> int:
        """The person sends a file; ``size`` is what Telegram says of it."""
        file_id = f"file{len(self._files)}"
        self._files[file_id] = content
        document = {"file_id": file_id, "file_unique_id": file_id, "file_name": name, "file_size": len(content) if size is None else size}
        return self.hand_out({"message": {**self._message(person), "document": document}})

    def hand_out(self, update: dict[str, Any], update_id: int | None = None) -> int:
        """Queues any update as it is, under the next number or a given one."""
        with self._changed:
            number = self._next_update if update_id is None else update_id
            self._next_update = max(self._next_update, number) + 1
            self._updates.append({"update_id": number, **update})
            self._changed.notify_all()
            return number

    @property
    def last_message_id(self) -> int:
        """The number of the newest message, the person's or the bot's."""
        return self._next_message

    # What the test looks at.

    def fault(self, method: str, *faults: Fault) -> None:
        """The next calls of ``method`` go wrong like this, one after another."""
        with self._changed:
            self._faults[method.lower()].extend(faults)

    def wait_for(self, is_so: Callable[[], bool], seconds: float = 10.0) -> None:
        """Waits until it is so, or fails."""
        until = time.monotonic() + seconds
        with self._changed:
            while not is_so():
                assert time.monotonic() < until, f"not so within {seconds} s; shown: {[shown.text for shown in self.log]}"
                # What is waited for may also be the engine's, which tells nobody here.
                self._changed.wait(0.02)

    def wait_for_message(self, part: str, seconds: float = 10.0) -> Shown:
        """Waits until the bot has sent or rewritten a message with ``part`` in it, and gives the newest such."""
        self.wait_for(lambda: any(part in shown.text for shown in self.log), seconds)
        return next(shown for shown in reversed(self.log) if part in shown.text)

    def wait_until_confirmed(self, update_id: int, seconds: float = 10.0) -> None:
        """Waits until the bot has asked for what comes after this update."""
        self.wait_for(lambda: self.confirmed >= update_id, seconds)

    def texts(self, person: int = PERSON) -> list[str]:
        """The bot's messages in a chat as they read now, in order."""
        return [shown.text for shown in self._chat(person)]

    def _chat(self, person: int) -> list[Shown]:
        return [shown for (chat, _), shown in sorted(self.shown.items()) if chat == person]

    def _message(self, person: int) -> dict[str, Any]:
        with self._changed:
            self._next_message += 1
            return {
                "message_id": self._next_message,
                "date": int(time.time()),
                "chat": {"id": person, "type": "private", "first_name": "Rider"},
                "from": {"id": person, "is_bot": False, "first_name": "Rider"},
            }

    # What the bot calls.

    def _respond(self, call: Call) -> Answer:
        with self._changed:
            self.calls.append(call)
            fault = self._faults[call.method].popleft() if self._faults[call.method] else None
            answer = self._carry_out(call) if fault is None or fault.accepted else Answer()
            self._changed.notify_all()
        return answer if fault is None else Answer(fault=fault)

    def _carry_out(self, call: Call) -> Answer:
        match call.method:
            case "getupdates":
                return self._get_updates(call)
            case "sendmessage" | "senddocument" | "sendphoto":
                return self._send(call)
            case "editmessagetext":
                return self._rewrite(call)
            case "answercallbackquery":
                self.answered_taps.append(call.fields["callback_query_id"])
            case "setmycommands":
                self.commands = call.json("commands")
            case "getme":
                return Answer({"id": 4711, "is_bot": True, "first_name": "Stand-in", "username": "standin_bot"})
            case "getfile":
                return self._get_file(call.fields["file_id"])
            case "file":
                return Answer(raw=self._files[call.fields["path"]])
        return Answer(True)

    def _get_updates(self, call: Call) -> Answer:
        """Long polling: whoever asks with a higher offset confirms what is below it; the newest asker wins."""
        self._poll += 1
        poll, offset = self._poll, call.whole("offset")
        while self._updates and self._updates[0]["update_id"] < offset:
            self.confirmed = self._updates.popleft()["update_id"]
        self._changed.notify_all()
        self._changed.wait_for(lambda: bool(self._updates) or poll != self._poll, call.whole("timeout"))
        if poll != self._poll:
            return Answer(fault=refuses(409, "Conflict: terminated by other getUpdates request"))
        updates = list(self._updates)[: call.whole("limit", 100)]
        return Answer(updates, then=lambda: self.handed_out([update["update_id"] for update in updates]))

    def _send(self, call: Call) -> Answer:
        self._next_message += 1
        return self._show(call, _shown(call, self._next_message))

    def _rewrite(self, call: Call) -> Answer:
        earlier = self.shown.get((call.whole("chat_id"), call.whole("message_id")))
        if earlier is None:
            return Answer(fault=refuses(400, "Bad Request: message to edit not found"))
        wanted = _shown(call, earlier.message_id)
        rewritten = replace(earlier, text=wanted.text, buttons=wanted.buttons, entities=wanted.entities)
        if rewritten == earlier:
            return Answer(fault=refuses(400, "Bad Request: message is not modified: the new text and markup are the same"))
        return self._show(call, replace(rewritten, edits=earlier.edits + 1))

    def _show(self, call: Call, shown: Shown) -> Answer:
        if (refusal := _refusal(shown)) is not None:
            return Answer(fault=refuses(400, f"Bad Request: {refusal}"))
        self.shown[(shown.chat, shown.message_id)] = shown
        self.log.append(shown)
        chat = {"id": shown.chat, "type": "private"}
        return Answer({"message_id": shown.message_id, "date": int(time.time()), "chat": chat, "text": shown.text})

    def _get_file(self, file_id: str) -> Answer:
        if len(self._files[file_id]) > 20 * 1024 * 1024:
            return Answer(fault=refuses(400, "Bad Request: file is too big"))
        return Answer({"file_id": file_id, "file_unique_id": file_id, "file_size": len(self._files[file_id]), "file_path": file_id})


def _shown(call: Call, message_id: int) -> Shown:
    rows = (call.json("reply_markup") or {}).get("inline_keyboard", [])
    return Shown(
        method=call.method,
        chat=call.whole("chat_id"),
        message_id=message_id,
        text=call.fields.get("text", call.fields.get("caption", "")),
        buttons=tuple(tuple((button["text"], button["callback_data"]) for button in row) for row in rows),
        entities=tuple(call.json("entities") or call.json("caption_entities") or ()),
        silent=bool(call.json("disable_notification")),
        file_name=call.files[0][0] if call.files else None,
        file_bytes=call.files[0][1] if call.files else None,
    )


def _refusal(shown: Shown) -> str | None:
    """Why the Bot API would not take this message."""
    units = len(shown.text.encode("utf-16-le")) // 2
    if shown.method == "sendmessage" and not shown.text.strip():
        return "message text is empty"
    if units > (4096 if shown.file_name is None else 1024):
        return "message is too long" if shown.file_name is None else "message caption is too long"
    if any(not 1 <= len(data.encode()) <= 64 for row in shown.buttons for _, data in row):
        return "BUTTON_DATA_INVALID"
    if any(not label for row in shown.buttons for label, _ in row):
        return "text buttons are unallowed in the inline keyboard"
    return None
