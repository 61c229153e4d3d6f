"""Text from outside is tamed: one line, nothing out of sight, no piles of marks; what people really write stays as it is."""

from __future__ import annotations

import time
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.tame_text import MOST_MARKS, tame, tame_lines

# Unicode Standard Annex 9, table 4 and section 2: every directional formatting character.
DIRECTIONS = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
HOSTILE = st.text(
    st.one_of(
        st.characters(),
        st.sampled_from(
            DIRECTIONS + "\u200b\u200c\u200d\u2060\ufeff\u00ad\u180e\u3164\u2800\ue000\U000f0000\U000e0041\n\r\u2028\u2029\x85\0\x1b\t"
        ),
        st.sampled_from("e\u0301\u0308\u034f\u0489\u20dd\ufe0f"),
    )
)


@pytest.mark.parametrize(
    "text",
    [
        "order spokes",
        "Kaffee & Küche, 2½ h",
        "naïve café, Ærø, Łódź, İstanbul",
        "修理自行车",
        "الدراجة في الورشة",
        "נסיעה לעבודה",
        "می‌خواهم",  # Persian: the joiner is part of the word.
        "क्‍ष",  # Devanagari with a joiner.
        "sửa xe đạp, ế ộ",
        "👩‍🔧 and 👨‍👩‍👧",
        "❤️ 1️⃣ 🇧🇪",
        "“quoted” – and so on …",
    ],
)
def test_what_people_write_stays_as_it_is(text: str) -> None:
    assert tame(text) == text == unicodedata.normalize("NFC", text)


@pytest.mark.parametrize(
    ("text", "tamed"),
    [
        ("order\u202e sekops\u202c", "order sekops"),
        ("dent\u200bist", "dentist"),
        ("a\u200db", "ab"),
        ("two\nlines\r\nand\u2028more", "two lines and more"),
        ("bell\x07 and esc\x1b[31m", "bell and esc[31m"),
        ("\u3164\u2800", "  "),
        ("tab\tand\u00a0no break", "tab and no break"),
        ("private \ue000 use", "private  use"),
        ("half \ud800 a pair", "half  a pair"),
        ("never \ufffe used \ufdd0", "never  used "),
        ("z" + "\u0335" * 50 + "!", "z" + "\u0335" * MOST_MARKS + "!"),
        ("e\u0301", "é"),
        ("e\u200b\u0301", "é"),
    ],
)
def test_what_deceives_is_taken_out(text: str, tamed: str) -> None:
    assert tame(text) == tamed


@given(HOSTILE)
def test_nothing_is_left_that_cannot_be_seen_or_leaves_its_line(text: str) -> None:
    tamed = tame(text)
    assert len(tamed.splitlines()) <= 1
    assert not set(tamed) & set(DIRECTIONS)
    assert all(unicodedata.category(char) not in {"Cc", "Co", "Cs", "Zl", "Zp"} for char in tamed)
    assert all(char in "\u200c\u200d" for char in tamed if unicodedata.category(char) == "Cf")


@given(HOSTILE)
def test_no_letter_carries_more_marks_than_a_script_needs(text: str) -> None:
    run = 0
    for char in tame(text):
        run = run + 1 if unicodedata.category(char) in {"Mn", "Me"} else 0
        assert run <= MOST_MARKS


@given(HOSTILE)
def test_what_is_tame_stays_so(text: str) -> None:
    assert tame(tame(text)) == tame(text)
    assert tame_lines(tame_lines(text)) == tame_lines(text)


@given(st.text(st.characters(min_codepoint=32, max_codepoint=126)))
def test_plain_text_is_not_touched(text: str) -> None:
    assert tame(text) == tame_lines(text) == text


@given(st.lists(HOSTILE))
def test_line_by_line_keeps_the_lines(texts: list[str]) -> None:
    lines = [tame(text) for text in texts]
    assert tame_lines("\n".join(lines)) == "\n".join(lines)


@pytest.mark.parametrize("piece", ["\u200d\u0301", "é\u200d", "\u202e", "e\u0301\u200b", "\u200dé\u0301\u200d", "👩‍"])
def test_it_takes_a_time_in_proportion_to_the_length(piece: str) -> None:
    def seconds(count: int) -> float:
        text = "x" + piece * count
        began = time.perf_counter()
        tame(text)
        return time.perf_counter() - began

    seconds(1000)
    assert min(seconds(40_000) for _ in range(3)) < 16 * max(min(seconds(10_000) for _ in range(3)), 0.002)
