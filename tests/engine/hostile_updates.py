"""Updates that mean no good, drawn from a seed: shapes that are right with content that is not, and shapes that are wrong."""

from __future__ import annotations

import copy
from random import Random
from typing import Any

# ruff: noqa: E501
PHRASES = """
3h workshop|1h 30m museum, 45m family|museum 13-17 less 30m|yesterday 2h learning - chapter 4|in workshop|out|out at 17:30|no, 2h|undo|redo
task call the glazier|task order spokes friday 30m workshop|done 1|done glazier|closed 2 in 45m|drop 3|reopen 3|push 2|push all to monday
push 2 to next week|goal finish chapter 4 learning 3h|month goal paint the shed home|target learning at least 5h|appt tomorrow 15:00 dentist
museum shift every tue 13-17|move dentist to friday 10:00|cancel dentist|routine run 30m daily 7-8|plan|accept|swap 1 2|week plan|today|tomorrow
week|month|hours|hours last week|goals|timesheet workshop|settings|help|help hours|morning at 7:00|evening 21:00|place Ghent|zone Europe/Brussels
waking 7-22|category gardening personal|alias gardening garden|/start|/start 123456|/privacy|/today|/undo@some_bot|read https://example.invalid/a.ics
yes|no|ok|1|all|what|3|0.5h home|-3h workshop|1e9h workshop|999999h museum|25:99-26:00 home|31 feb 2h home|every day every day|dog walk every 0 days
""".replace("\n", "|").split("|")
NASTY = (
    "\u202e", "\u2066", "\u200b", "\u200d", "\ufeff", "\x00", "\x1b[31m", "a" + "\u0301" * 300, "👨‍👩‍👧‍👦", "🚲" * 60, "<b>", "</b>", "&amp;", "<script>",
    "*_`[", "';DROP TABLE stints;--", "%s%n", "{0.__class__}", "\\", '"', "\n\n\n", "\t", "٣h", "½h", "１０h", "İ", "ß", "\U000e0001", "\ud83d",
    "9" * 400, "h" * 300, "-" * 200, "(" * 200, "💥" * 2100, "x" * 4096, " ", "\u00a0", "\u2028", "٫", "𝟛h", "to to to", "- - -", ",,,", "::", "..",
)  # fmt: skip
JUNK: tuple[Any, ...] = (None, [], {}, 0, -1, 10**30, 1e308, float("nan"), True, "", "x", [[]], {"id": {}}, "\ud800", -(10**18), 2**63)
CALENDARS = (
    b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nBEGIN:VEVENT\r\nUID:1\r\nDTSTART:20260303T100000Z\r\nDTEND:20260303T110000Z\r\nSUMMARY:%s\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n",
    b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:2\r\nDTSTART;VALUE=DATE:20260310\r\nRRULE:FREQ=DAILY;%s\r\nEND:VEVENT\r\nEND:VCALENDAR",
    b"BEGIN:VCALENDAR%s",
    b"\x89PNG%s",
    b"%s",
)


class Adversary:
    """Makes one update after another. ``buttons`` are data of buttons that were really shown."""

    def __init__(self, seed: int) -> None:
        self._random = Random(f"{seed} adversary")
        self._number = 0
        self.buttons: list[str] = []

    def update(self) -> dict[str, Any]:
        """An update as Telegram might send it, if it meant harm."""
        self._number += 1
        kinds = {"text": 12, "edit": 3, "tap": 5, "file": 2, "place": 1, "wordless": 1, "reply": 1}
        kind = self._random.choices(list(kinds), list(kinds.values()))[0]
        update: dict[str, Any] = {"update_id": self._number, **self._content(kind)}
        return self._broken(update) if self._random.random() < 0.15 else update

    def content_of_a_file(self) -> bytes:
        """What a file holds that was offered."""
        shape = self._random.choice(CALENDARS)
        return shape.replace(b"%s", self.text().encode("utf-8", "surrogatepass"))

    def text(self) -> str:
        """A phrase, with something nasty in it more often than not."""
        words = self._random.choice(PHRASES)
        for _ in range(self._random.choice((0, 1, 1, 2, 5))):
            at = self._random.randrange(len(words) + 1)
            words = words[:at] + self._random.choice(NASTY) + words[at:]
        return " ".join(words for _ in range(self._random.choice((1, 1, 1, 2, 30))))[:5000]

    def _content(self, kind: str) -> dict[str, Any]:
        if kind == "tap":
            return {"callback_query": {"id": "t", "from": {"id": 1}, "message": self._message({}), "data": self._data()}}
        if kind == "edit":
            return {"edited_message": {**self._message({"text": self.text()}), "message_id": self._random.randint(1, self._number)}}
        more: dict[str, dict[str, Any]] = {
            "text": {"text": self.text()},
            "file": {"document": {"file_id": "f", "file_name": self._random.choice(("a.ics", self.text(), "")), "file_size": 1}},
            "place": {"location": {"latitude": self._random.uniform(-90, 90), "longitude": self._random.uniform(-180, 180)}},
            "wordless": {"sticker": {"emoji": "🚲"}},
            "reply": {"text": self.text(), "reply_to_message": {"message_id": self._random.randint(1, 50), "from": {"is_bot": True}}},
        }
        return {"message": self._message(more[kind])}

    def _data(self) -> str:
        if self.buttons and self._random.random() < 0.8:
            return self._random.choice(self.buttons[-12:])
        return self._random.choice(("1.0.0", "0.0.0", "999999.9.9", "1.-1.0", "a.b.c", "", "1.0.0" * 30, self.text()))

    def _message(self, more: dict[str, Any]) -> dict[str, Any]:
        return {"message_id": self._number, "date": 1, "chat": {"id": 1, "type": "private"}, "from": {"id": 1, "is_bot": False}, **more}

    def _broken(self, update: dict[str, Any]) -> dict[str, Any]:
        """The same with one part, however deep, replaced by junk, left out or doubled."""
        broken = copy.deepcopy(update)
        part: Any = broken
        while True:
            key = self._random.choice(list(part))
            if isinstance(part[key], dict) and part[key] and self._random.random() < 0.8:
                part = part[key]
                continue
            part[key] = self._random.choice(JUNK)
            return broken
