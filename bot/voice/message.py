"""Words and buttons, ready to be owed: a ``Message``, and the ``Page`` it is written on."""

from __future__ import annotations

from dataclasses import dataclass, replace

from bot.language.meaning import Meaning, Undo
from bot.voice.length import units

LONGEST = 3900
"""UTF-16 units a message may hold; the chat platform takes 4096, and a word about the message itself may still come before it."""


MOST_THINGS = 3
"""Things that a summary names."""


@dataclass(frozen=True, slots=True)
class Tap:
    """A button: its label and what a tap on it means. Of those that are ``one_of`` a message's, only one may be taken."""

    label: str
    does: Meaning
    one_of: bool = False


Rows = tuple[tuple[Tap, ...], ...]


@dataclass(frozen=True, slots=True)
class Message:
    """``bold`` holds pairs of code-point offsets into ``text``. ``about`` are the things it tells of, where it is more than one."""

    text: str
    bold: tuple[tuple[int, int], ...] = ()
    buttons: Rows = ()
    about: tuple[str, ...] = ()

    @property
    def things(self) -> tuple[str, ...]:
        """What the message is about: its first line, unless it tells of several things."""
        return self.about or (self.text.split("\n", 1)[0],)

    @property
    def summary(self) -> str:
        """What it is about in one line, for when it is taken back."""
        more = len(self.things) - MOST_THINGS
        if len(self.things) == 1:
            return self.things[0]
        things = [thing.removesuffix(".") for thing in self.things[:MOST_THINGS]]
        return "; ".join((*things, *([f"{more} more"] if more > 0 else [])))


def with_undo(message: Message, entry_id: int) -> Message:
    """The same message with an Undo button below the others, for the journal entry ``entry_id``."""
    return replace(message, buttons=(*message.buttons, (Tap("Undo", Undo(entry_id)),)))


def with_lines(message: Message, lines: list[str]) -> Message:
    """The same message with ``lines`` behind its own."""
    return replace(message, text="\n".join((message.text, *lines))) if lines else message


class Page:
    """Collects lines and headings and turns them into one message; without ``gaps`` no line is empty."""

    def __init__(self, *, gaps: bool = True) -> None:
        self._gaps = gaps
        self._lines: list[tuple[str, bool]] = []

    def heading(self, text: str) -> None:
        """Adds a line in bold."""
        self._lines.append((text, True))

    def line(self, text: str) -> None:
        """Adds a line."""
        self._lines.append((text, False))

    def lines(self, texts: list[str]) -> None:
        """Adds several lines."""
        for text in texts:
            self.line(text)

    def some(self, texts: list[str], most: int, where: str) -> None:
        """Adds the first ``most`` lines and, in place of the others, how many they are and what shows them: "and 4 more: tasks"."""
        shown = texts if len(texts) <= most + 1 else texts[:most]
        self.lines(shown)
        if len(shown) < len(texts):
            self.line(f"and {len(texts) - len(shown)} more: {where}")

    def __len__(self) -> int:
        return len(self._lines)

    def gap(self) -> None:
        """An empty line, unless the page is empty or already ends with one."""
        if self._gaps and self._lines and self._lines[-1][0]:
            self.line("")

    def message(self, buttons: Rows = ()) -> Message:
        """The page as a message, cut with a word where it would be too long."""
        text, bold, room = "", [], LONGEST
        for line, is_heading in self._lines:
            room -= units(line)
            if room < 0:
                text += "and more that does not fit here\n"
                break
            if is_heading:
                bold.append((len(text), len(text) + len(line)))
            text += line + "\n"
            room -= 1
        return Message(text.rstrip("\n"), tuple(bold), buttons)


def one_line(text: str, buttons: Rows = ()) -> Message:
    """A message of one line."""
    page = Page()
    page.line(text)
    return page.message(buttons)


def fitting(message: Message) -> Message:
    """The message, cut at a line's end where several together would be too long."""
    if units(message.text) <= LONGEST:
        return message
    page = Page()
    page.lines(message.text.split("\n"))
    cut = page.message(message.buttons)
    return replace(cut, bold=tuple((start, end) for start, end in message.bold if end <= len(cut.text)))


def rows_of(taps: list[Tap], width: int) -> Rows:
    """The taps in rows of at most ``width``."""
    return tuple(tuple(taps[i : i + width]) for i in range(0, len(taps), width))


def clipped(text: str, longest: int) -> str:
    """The text, cut at a word's end so that it and its dots fit ``longest`` characters."""
    if len(text) <= longest:
        return text
    cut = text[: longest - 1]
    return (cut.rsplit(" ", 1)[0] if " " in cut[longest // 2 :] else cut).rstrip(" ,.;:-") + "…"
