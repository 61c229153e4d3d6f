"""What the person's words say of a commitment by its title."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.rules.marks import Mark, MarkRule, mark

MUSEUM, FAMILY = 2, 4
RULES = (
    MarkRule("museum shift", Mark(category_id=MUSEUM)),
    MarkRule("choir", Mark(minor=True)),
    MarkRule("choir concert", Mark(category_id=FAMILY, minor=False)),
    MarkRule("towpath", Mark(outdoors=True)),
    MarkRule("café", Mark(category_id=FAMILY)),
)


@pytest.mark.parametrize(
    ("title", "expected"),
    [
        ("Museum shift", Mark(category_id=MUSEUM)),
        ("Late MUSEUM-SHIFT, swapped", Mark(category_id=MUSEUM)),
        ("Shift at the museum", Mark()),
        ("Museum shifts", Mark()),
        ("Choir", Mark(minor=True)),
        ("Choirmaster's birthday", Mark()),
        ("Choir concert", Mark(category_id=FAMILY, minor=False)),
        ("Choir ride on the towpath", Mark(minor=True, outdoors=True)),
        ("CAFE with Noor", Mark(category_id=FAMILY)),
        ("", Mark()),
    ],
)
def test_a_title_is_marked_by_the_words_that_stand_in_it(title: str, expected: Mark) -> None:
    assert mark(title, RULES) == expected


def test_of_rules_with_as_many_words_the_first_decides() -> None:
    rules = [MarkRule("choir", Mark(minor=True)), MarkRule("evening", Mark(minor=False, outdoors=True))]
    assert mark("Choir evening", rules) == Mark(minor=True, outdoors=True)
    assert mark("Choir evening", reversed(rules)) == Mark(minor=False, outdoors=True)


def test_a_rule_without_words_holds_for_nothing() -> None:
    assert mark("Choir", [MarkRule(" – ", Mark(minor=True))]) == Mark()


@given(st.text(), st.text(), st.text())
def test_a_rule_holds_for_every_title_that_holds_its_words_apart(before: str, words: str, after: str) -> None:
    if any(letter.isalnum() for letter in words):
        rule = MarkRule(words, Mark(minor=True))
        assert mark(words, [rule]) == mark(f"{before} {words} {after}", [rule])
