"""The chat in a real terminal: keys are pressed, and the screen is read."""

from __future__ import annotations

import re
from pathlib import Path

from tests.commands.typed import CONTROL_C, CONTROL_D, LEFT, UP, Typed

PROMPT = "\n> "


def test_a_line_is_edited_said_again_and_buttons_are_numbered_choices(tmp_path: Path) -> None:
    with Typed(tmp_path) as typed:
        assert "  1 Keep this  2 Skip the rest\n" in typed.wait_for(PROMPT)
        typed.press("1h wrkshop" + LEFT * 6 + "o\n")
        assert ": 1 h\n" in typed.wait_for(PROMPT)
        typed.press(UP + "\n")
        shown = typed.wait_for(PROMPT)
        assert "Workshop today: 2 h in all.\n  1 Undo\n" in shown
        typed.press("1\n")
        assert "  Taken back: “Workshop" in typed.wait_for(PROMPT)
        typed.press(CONTROL_D)
        assert typed.end() == 0
    assert [each.name for each in tmp_path.iterdir() if "history" in each.name] == []


def test_a_picture_is_saved_where_it_says(tmp_path: Path) -> None:
    with Typed(tmp_path) as typed:
        typed.wait_for(PROMPT)
        typed.press("picture\n")
        saved = re.search(r"  saved as (.+\.png)\n", typed.wait_for(PROMPT))
        assert saved is not None
        assert Path(saved[1]).read_bytes().startswith(b"\x89PNG")


def test_ctrl_c_ends_it_at_once_in_the_middle_of_a_line(tmp_path: Path) -> None:
    with Typed(tmp_path) as typed:
        typed.wait_for(PROMPT)
        typed.press("half a line")
        typed.wait_for("half a line")
        typed.press(CONTROL_C)
        assert typed.end() == 0
        assert typed.echoes
