"""The prompt: what comes while someone types is shown above it."""

from __future__ import annotations

import asyncio
import io

import pytest

from bot.channels import prompt as prompts
from bot.channels.prompt import Prompt


class Keyboard(io.StringIO):
    """Standard input that is a terminal."""

    def isatty(self) -> bool:
        return True


def test_what_comes_while_a_line_is_typed_leaves_it_as_it_is(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    prompt = Prompt()

    def typed(_prompt: str) -> str:
        prompt.show("Before Monday ends")
        return "3h workshop"

    monkeypatch.setattr("sys.stdin", Keyboard())
    monkeypatch.setattr("builtins.input", typed)
    monkeypatch.setattr(prompts, "_typed", lambda: "3h wo")
    assert asyncio.run(prompt.read_line()) == "3h workshop"
    prompt.show("Workshop: 3 h")
    assert capsys.readouterr().out == "\r\x1b[KBefore Monday ends\n> 3h woWorkshop: 3 h\n"


def test_what_is_piped_is_read_to_its_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("3h workshop\n\nlast"))
    prompt = Prompt()

    async def read_all() -> list[str | None]:
        return [await prompt.read_line() for _ in range(4)]

    assert asyncio.run(read_all()) == ["3h workshop", "", "last", None]
