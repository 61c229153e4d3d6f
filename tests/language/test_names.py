"""Categories by name, alias, section and typing mistake."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.language.context import Named
from bot.language.names import alike, mistyped, names_known, read_names
from bot.language.tokens import tokenize
from tests.language.person import CATEGORIES

KNOWN = names_known(CATEGORIES)


def _read(text: str) -> tuple[str, ...] | None:
    found = read_names(tokenize(text), 0, KNOWN)
    return found.value if found else None


@pytest.mark.parametrize(
    ("text", "category"),
    [("workshop", "workshop"), ("Bike", "workshop"), ("front desk", "museum"), ("desk", "museum"), ("kid", "family"), ("gardens", "home")],
)
def test_a_category_is_known_by_its_name_its_aliases_and_their_other_number(text: str, category: str) -> None:
    assert _read(text) == (category,)


def test_the_longest_call_wins() -> None:
    found = read_names(tokenize("front desk today"), 0, KNOWN)
    assert found is not None
    assert found.end == 2


def test_a_section_means_every_category_in_it() -> None:
    assert _read("work") == ("workshop", "museum")
    assert _read("personal") == ("learning", "family", "home")


def test_a_call_that_two_categories_share_means_both() -> None:
    shared = names_known((Named("choir", ("singing",)), Named("band", ("singing",))))
    found = read_names(tokenize("singing"), 0, shared)
    assert found is not None
    assert found.value == ("choir", "band")


@pytest.mark.parametrize(
    ("word", "category"),
    [
        ("wrokshop", "workshop"),
        ("workshp", "workshop"),
        ("workshopp", "workshop"),
        ("worjshop", "workshop"),
        ("musuem", "museum"),
        ("lerning", "learning"),
        ("learnign", "learning"),
        ("famly", "family"),
        ("gardn", "home"),
        ("dsek", "museum"),
        ("muse", "museum"),
        ("fam", "family"),
    ],
)
def test_a_typing_mistake_or_a_beginning_still_names_its_category(word: str, category: str) -> None:
    assert alike(word, KNOWN) == (category,)


@pytest.mark.parametrize("word", ["bake", "hike", "horse", "ship", "dark", "no", "at", "dentist", "choir", "2h", "hope", "shoe"])
def test_another_word_is_no_typing_mistake(word: str) -> None:
    assert alike(word, KNOWN) == ()


def test_two_categories_as_near_are_both_given() -> None:
    assert alike("mus", names_known((Named("museum"), Named("music")))) == ("museum", "music")
    assert alike("marketer", names_known((Named("marketers"), Named("marketed")))) == ("marketers",)
    assert alike("paintinh", names_known((Named("paintings"), Named("painting")))) == ("painting",)


@given(st.sampled_from([category.name for category in CATEGORIES]), st.data())
def test_one_slip_in_a_name_of_six_letters_or_more_is_forgiven(name: str, data: st.DataObject) -> None:
    if len(name) < 6:
        return
    at = data.draw(st.integers(1, len(name) - 2))
    slip = data.draw(st.sampled_from(["left out", "swapped", "doubled"]))
    wrong = {
        "left out": name[:at] + name[at + 1 :],
        "swapped": name[:at] + name[at + 1] + name[at] + name[at + 2 :],
        "doubled": name[:at] + name[at] + name[at:],
    }[slip]
    assert wrong == name or mistyped(wrong, name) == 1


def test_the_names_of_the_same_categories_are_worked_out_once() -> None:
    assert names_known(CATEGORIES) is KNOWN
