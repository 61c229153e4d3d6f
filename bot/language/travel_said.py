"""The way to a commitment and back.

travel := ["allow" | "with" | "plus" | …] amount ("each way" | "before and after" | "travel" | …)
        | amount "before" [["and" | ","] amount "after"] | amount "after" | "no travel"
allow  := "allow" travel ["for"] words | words travel
"""

from __future__ import annotations

from bot.language.amounts import read_amount
from bot.language.numbers import digits_at
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.standing_meaning import AllowTravel
from bot.language.titles import title_of
from bot.language.tokens import Found
from bot.language.words import ARTICLES, FUNCTION_WORDS
from bot.rules.travel import Travel

ALLOW = opened_by("allow | allow for | allow me | keep | leave")
LEADS = frozenset({"allow", "with", "plus", "and", "+", "&", ",", "keep", "leave"})
BOTH = opened_by(
    "each way | both ways | either way | there and back | before and after | before & after | before + after | on both sides | "
    "on each side | each side | either side | travel | of travel | travel time | travel each way | travel both ways | for travel | "
    "to get there and back | for the way | travelling | traveling | way there and back"
)
BEFORE = opened_by("before | before it | to get there | to get to it | there | on the way there")
AFTER = opened_by("after | after it | afterwards | to get back | back | on the way back")
NONE = opened_by("no travel | without travel | no way there | no time before and after")
LONGEST = 4 * 60
"""In minutes. No source: a way longer than this is a journey, and a commitment of its own."""
MOST_WORDS = 6
SAID_OUTRIGHT = frozenset({"way", "ways", "travel", "travelling", "traveling", "side", "sides", "back", "after"})


def travel_said(phrase: Phrase, at: int) -> Found[Travel] | None:
    """The way there, the way back, or both."""
    none = NONE(phrase, at)
    if none:
        return Found(Travel(0, 0), at + none)
    start = at
    while phrase.word(start) in LEADS:
        start += 1
    first = _one(phrase, start)
    if first is None or first.value.after is not None:
        return first
    joint = first.end
    while phrase.word(joint) in ("and", ",", "&", "+"):
        joint += 1
    second = _one(phrase, joint, unit_said=True)
    if second is None or second.value.before is not None:
        return first
    return Found(Travel(first.value.before, second.value.after), second.end)


def _one(phrase: Phrase, at: int, *, unit_said: bool = False) -> Found[Travel] | None:
    """An amount and which way it is for; "20 min before, 10 after" says its unit once."""
    amount = read_amount(phrase.tokens, at)
    digits = digits_at(phrase.tokens, at) if amount is None and unit_said else None
    minutes = amount.value if amount is not None else digits
    if minutes is None or not 0 <= minutes <= LONGEST:
        return None
    end = amount.end if amount is not None else at + 1
    for opening, travel in ((BOTH, Travel(minutes, minutes)), (BEFORE, Travel(before=minutes)), (AFTER, Travel(after=minutes))):
        taken = opening(phrase, end)
        if taken:
            return Found(travel, end + taken)
    return None


def read_allow(phrase: Phrase) -> AllowTravel | None:
    """Time for the way to a commitment that is there already; with no words it is the one that is replied to."""
    start = ALLOW(phrase)
    if not start and SAID_OUTRIGHT.isdisjoint(token.text for token in phrase.tokens):
        return None
    said = explain(phrase.part(start), (travel_said,))
    travel, words = said.one(Travel), _named(title_of(said, shortest=MOST_WORDS).text)
    if travel is None or said.twice(Travel) or not (start or _is_both(travel)):
        return None
    if words is None and (phrase.piece or said.left or not (start or _says_way(phrase))):
        return None
    return AllowTravel(words, travel.before, travel.after) if _is_title(words) else None


def _is_both(travel: Travel) -> bool:
    return travel.before is not None and travel.after is not None


def _says_way(phrase: Phrase) -> bool:
    """Whether it is about a way for sure: "1h travel" may as well be time spent."""
    return not {"way", "ways", "back"}.isdisjoint(token.text for token in phrase.tokens)


def _named(title: str) -> str | None:
    """The words without an article before them."""
    words = title.split()
    while words and words[0].lower() in ARTICLES:
        words = words[1:]
    return " ".join(words) or None


def _is_title(words: str | None) -> bool:
    if words is None:
        return True
    said = words.lower().split()
    return len(said) <= MOST_WORDS and said[0] not in FUNCTION_WORDS and not said[0][0].isdigit()
