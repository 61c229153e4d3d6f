"""A meaning written out is understood as that meaning. No source: it is our own promise."""

from __future__ import annotations

from hypothesis import given

from bot.language.meaning import Ask, Meaning, Unknown
from bot.language.understand import understand
from bot.voice.written import written
from tests.language import meanings
from tests.language.person import at
from tests.language.table import rows

NOON = at()


@given(meanings.meanings)
def test_whatever_is_written_is_understood_as_what_was_meant(meaning: Meaning) -> None:
    assert understand(written(meaning, NOON), NOON) == meaning


def test_every_reply_of_the_tables_can_be_written_back() -> None:
    for table in ("hours.txt", "pushing.txt", "adding.txt", "commitments.txt", "settings.txt", "showing.txt", "calendars.txt", "jobs.txt"):
        for row in rows(table):
            meaning = understand(row.reply, NOON)
            if not isinstance(meaning, Ask | Unknown):
                assert understand(written(meaning, NOON), NOON) == meaning, row.place
