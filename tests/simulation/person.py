"""One person with a phone: what they write and tap, drawn from the seed, and what they mean by it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random
from typing import Any

from tests.simulation.chat_service import ChatService
from tests.simulation.ledger import AddsTask, ClocksIn, ClocksOut, Deed, Logs, Looks, TakesBack, TakesBackLatest

CATEGORIES = ("workshop", "museum", "learning", "family", "home")
CLOCKED = "workshop"
LETTERS = "bcdfghjklmnprstvw"
# Nothing is due by then, so that no plan, push or nudge touches it.
FAR_DAY = "20 jan"


@dataclass(frozen=True, slots=True)
class Meant:
    """What an update is about. ``line`` is how a rehearsal script says it."""

    chat: int
    deed: Deed
    message_key: str
    is_edit: bool
    line: str


@dataclass(slots=True)
class Writer:
    """Makes updates and remembers what each means, by the key of its delivery."""

    chat: int
    random: Random
    service: ChatService
    bring: Callable[[dict[str, Any]], None]
    meant: dict[str, Meant]
    numbers: list[int]
    _editable: list[int] = field(default_factory=list)
    _words: int = 0

    def act(self, kind: str | None = None) -> Meant:
        """The person does something, of this kind if one is given; gives what it means."""
        kinds = {"log": 10, "edit": 3, "undo": 2, "tap": 3, "task": 2, "in": 2, "out": 2, "look": 2, "talk": 1}
        kind = kind or self.random.choices(list(kinds), list(kinds.values()))[0]
        if kind == "edit" and self._editable:
            return self._edit()
        if kind == "tap" and (button := self._button()) is not None:
            return self._tap(*button)
        if kind == "task":
            title = "oil " + self._word()
            return self._say(f"task {title} on {FAR_DAY}", AddsTask(title))
        plain: dict[str, tuple[str, Deed]] = {
            "undo": ("undo", TakesBackLatest()),
            "in": (f"in {CLOCKED}", ClocksIn()),
            "out": ("out", ClocksOut()),
            "look": (self.random.choice(("today", "hours", "goals", "week")), Looks()),
            "talk": (self.random.choice(("so what", "zxq vvv", "🚲🚲")), Looks()),
        }
        return self._say(*plain[kind]) if kind in plain else self._log()

    def _log(self) -> Meant:
        text, deed = self._amount()
        return self._say(text, deed, editable=True)

    def _amount(self) -> tuple[str, Logs]:
        category, minutes = self.random.choice(CATEGORIES), self.random.randint(2, 74)
        amount = f"{minutes}m" if minutes < 60 else f"1h {minutes - 60}m" if minutes > 60 else "1h"
        return (f"{amount} {category}" if self.random.random() < 0.7 else f"{category} {amount}"), Logs(category, minutes)

    def _say(self, text: str, deed: Deed, *, editable: bool = False) -> Meant:
        number = self.service.new_message_id()
        if editable:
            self._editable.append(number)
        return self._bring("message", self._message(number, text), number, deed, f"say {text}")

    def _edit(self) -> Meant:
        """Each message is edited once at most: a chat service tells in which order edits were made by nothing but their order."""
        number = self._editable.pop(self.random.randrange(len(self._editable)))
        text, deed = self._amount()
        return self._bring("edited_message", self._message(number, text), number, deed, f"edit {text}")

    def _tap(self, message_id: int, data: str) -> Meant:
        tap = {"id": f"tap{self.numbers[0]}", "data": data, "message": self._message(message_id, ""), "from": {"id": self.chat}}
        return self._bring("callback_query", tap, message_id, TakesBack(int(data.split(".")[0])), "tap Undo")

    def _button(self) -> tuple[int, str] | None:
        """An Undo button of one of the newest messages."""
        shown = sorted((each for (chat, _), each in self.service.shown.items() if chat == self.chat), key=lambda each: each.message_id)
        undos = [(each.message_id, data) for each in shown[-6:] for row in each.buttons for label, data in row if label == "Undo"]
        return self.random.choice(undos) if undos else None

    def _message(self, number: int, text: str) -> dict[str, Any]:
        person = {"id": self.chat, "is_bot": False, "first_name": "Rider"}
        return {"message_id": number, "date": 1, "chat": {"id": self.chat, "type": "private"}, "from": person, "text": text}

    def _bring(self, kind: str, content: dict[str, Any], number: int, deed: Deed, line: str) -> Meant:
        update_id = self.numbers[0]
        self.numbers[0] += 1
        meant = Meant(self.chat, deed, f"telegram:{self.chat}:{number}", kind == "edited_message", line)
        self.meant[f"telegram:{update_id}"] = meant
        self.bring({"update_id": update_id, kind: content})
        return meant

    def _word(self) -> str:
        self._words += 1
        return "".join(self.random.choice(LETTERS) + self.random.choice("aeiou") for _ in range(4)) + LETTERS[self._words % len(LETTERS)]
