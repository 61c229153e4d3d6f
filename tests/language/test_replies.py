"""The tables of replies in ``replies/``: every line means what it says it means."""

from __future__ import annotations

from collections import Counter

import pytest

from bot.language.understand import understand
from bot.language.wire import to_wire
from tests.language.person import at
from tests.language.table import FOLDER, rows, told

TABLES = sorted(path.name for path in FOLDER.glob("*.txt"))
LEAST_ROWS = 600
LEAST_A_KIND = 5
PROMISED = [
    *["log", "clock_in", "clock_out", "close", "drop", "reopen", "push", "add_task", "add_goal", "add_commitment"],
    *["move", "cancel", "add_routine", "set_target", "show", "undo", "set", "ask"],
]


@pytest.mark.parametrize("name", TABLES)
def test_every_reply_of_the_table_means_what_stands_beside_it(name: str) -> None:
    wrong = []
    for row in rows(name):
        meaning = told(to_wire(understand(row.reply, at())))
        if meaning != row.meaning:
            wrong.append(f"{row.place} {row.reply!r}\n  stands {row.meaning}\n  read   {meaning}")
    assert not wrong, "\n".join(wrong)


def test_the_tables_hold_at_least_six_hundred_different_replies() -> None:
    replies = {row.reply for name in TABLES for row in rows(name)}
    assert len(replies) >= LEAST_ROWS


def test_every_promised_kind_has_at_least_five_replies() -> None:
    kinds = Counter(row.meaning.split(" ")[0] for name in TABLES for row in rows(name))
    assert {kind: kinds[kind] for kind in PROMISED if kinds[kind] < LEAST_A_KIND} == {}
