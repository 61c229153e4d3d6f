"""Thanks, greetings and the like are known for what they are, and ask for nothing."""

from __future__ import annotations

import pytest

from bot.language.meaning import Close, Unknown
from bot.language.understand import understand
from tests.language.person import at, clocked_in, planning

SAID = {
    "thanks": ("thanks", "Thanks!", "thank you", "thank you so much", "ok thanks", "great, thank you!", "thx 👍", "no thanks"),
    "greeting": ("hi", "Hello!", "good morning", "morning", "good evening", "hi, good morning"),
    "goodbye": ("bye", "good night", "see you tomorrow", "ok, bye"),
    "agreed": ("ok", "Ok.", "okay", "yes", "no", "never mind", "all right", "great!", "ok ok"),
}


@pytest.mark.parametrize(("courtesy", "text"), [(courtesy, text) for courtesy, texts in SAID.items() for text in texts])
def test_what_is_nothing_but_polite_is_known_as_that(courtesy: str, text: str) -> None:
    for context in (at(), clocked_in(), planning(("museum", "11:00", "13:00"))):
        assert understand(text, context) == Unknown(courtesy=courtesy)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "text", ["thanks for yesterday", "hi how are you", "ok see you at 9", "good idea", "morning?", "no 2", "", "👍", "fine by me"]
)
def test_anything_more_is_not(text: str) -> None:
    meaning = understand(text, at())
    assert not isinstance(meaning, Unknown) or meaning.courtesy is None


def test_an_order_stays_one_however_politely_it_is_put() -> None:
    meaning = understand("ok thanks, done 2", at())
    assert isinstance(meaning, Close)
