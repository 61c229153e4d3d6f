"""Numbers as people write them.

whole    := digits | ones | tens [["-" | "and"] ones] | [ones | "a"] "hundred" [["and"] whole]
ordinal  := digits ("st" | "nd" | "rd" | "th") | "first" … "thirty-first"
fraction := ["a" | "an" | "one"] ("half" | "quarter" | "third") | whole ("quarters" | "thirds") | digits "/" digits | "½"
quantity := digits ("." | ",") digits | whole "point" digit | whole ["and"] fraction | fraction | whole
          | "a" | "an" | "a couple of" | "a few" | …
"""

from __future__ import annotations

import unicodedata
from fractions import Fraction
from typing import TypeAlias

from bot.language.tokens import FRACTION_SIGNS, Found, Tokens, is_glued, is_number, text_at

Number: TypeAlias = int | Fraction

_LONGEST_DIGITS = 9

ONES = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen".split()
    )
}
TENS = {word: 10 * tens for tens, word in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), 2)}
TENS["fourty"] = 40
ORDINAL_ONES = {
    word: value
    for value, word in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth "
        "seventeenth eighteenth nineteenth".split(),
        1,
    )
}
ORDINAL_TENS = {"twentieth": 20, "thirtieth": 30}
ORDINAL_ENDINGS = frozenset({"st", "nd", "rd", "th"})
_PARTS = {"half": Fraction(1, 2), "quarter": Fraction(1, 4), "third": Fraction(1, 3), "quarters": Fraction(1, 4), "thirds": Fraction(1, 3)}
_PARTS["halves"] = Fraction(1, 2)
_SIGNS = {sign: Fraction(unicodedata.numeric(sign)).limit_denominator(8) for sign in FRACTION_SIGNS}
_VAGUE = {"couple": 2, "pair": 2, "few": 3, "several": 7, "dozen": 12}
_GOES_ON = frozenset({"quarter", "quarters", "halves", "thirds", "-", ".", ",", "/", "⁄", "and", "&", "hundred"})
_ARTICLES = frozenset({"a", "an", "one"})

ORDINAL_WORDS = frozenset(ORDINAL_ONES) | frozenset(ORDINAL_TENS) | frozenset(TENS)
_QUANTITY_WORDS = frozenset(ONES) | frozenset(TENS) | frozenset(_PARTS) | frozenset(_VAGUE) | {"a", "an", "hundred"}
NUMBER_WORDS = (
    frozenset(ONES)
    | frozenset(TENS)
    | frozenset({"a", "an", "half", "quarter", "few", "several", "couple", "pair", "dozen", "hundred", "third"})
)


def digits_at(tokens: Tokens, at: int) -> int | None:
    """The value of plain digits at ``at``; None for anything else, also for more digits than anyone means."""
    if at >= len(tokens) or tokens[at].kind != "number":
        return None
    text = tokens[at].text
    return int(text) if len(text) <= _LONGEST_DIGITS and text not in _SIGNS else None


def begins_quantity(tokens: Tokens, at: int) -> bool:
    """Whether a quantity may begin at ``at``: a glance that spares the reading."""
    return at < len(tokens) and (tokens[at].kind == "number" or tokens[at].text in NUMBER_WORDS or tokens[at].text == ".")


def read_whole(tokens: Tokens, at: int) -> Found[int] | None:
    """A whole number in digits or in words below a thousand."""
    value = digits_at(tokens, at)
    if value is not None:
        return Found(value, at + 1)
    small = _read_below_hundred(tokens, at)
    hundreds = small.end if small else at + 1 if text_at(tokens, at) == "a" else at
    if text_at(tokens, hundreds) != "hundred":
        return small
    return _with_rest(tokens, hundreds + 1, 100 * (small.value if small else 1))


def read_year_said(tokens: Tokens, at: int) -> Found[int] | None:
    """A year in words: two thousand [and] fifteen, twenty fifteen, nineteen ninety."""
    if text_at(tokens, at) == "two" and text_at(tokens, at + 1) == "thousand":
        rest = _read_below_hundred(tokens, at + 3 if text_at(tokens, at + 2) == "and" else at + 2)
        return Found(2000 + rest.value, rest.end) if rest else Found(2000, at + 2)
    hundreds = {"nineteen": 1900, "twenty": 2000}.get(text_at(tokens, at))
    rest = _read_below_hundred(tokens, at + 1) if hundreds else None
    return Found(hundreds + rest.value, rest.end) if hundreds and rest and rest.value > 9 else None


def read_ordinal(tokens: Tokens, at: int) -> Found[int] | None:
    """A place in a row: 1st, first, twenty-first, 22nd."""
    value = digits_at(tokens, at)
    if value is not None:
        return Found(value, at + 2) if text_at(tokens, at + 1) in ORDINAL_ENDINGS and is_glued(tokens, at + 1) else None
    text = text_at(tokens, at)
    if text in TENS:
        last = at + 2 if text_at(tokens, at + 1) == "-" else at + 1
        one = ORDINAL_ONES.get(text_at(tokens, last), 0)
        return Found(TENS[text] + one, last + 1) if 0 < one < 10 else None
    place = ORDINAL_ONES.get(text) or ORDINAL_TENS.get(text)
    return Found(place, at + 1) if place else None


def read_quantity(tokens: Tokens, at: int) -> Found[Number] | None:
    """How many or how much: 2, 2.5, 2,5, 1 1/2, 1½, three quarters, two and a half, a, a couple of, several."""
    if is_number(tokens, at):
        return _read_plain_digits(tokens, at) or read_fraction(tokens, at) or _read_decimal(tokens, at) or _read_whole_and_more(tokens, at)
    text = text_at(tokens, at)
    if text in _QUANTITY_WORDS:
        return read_fraction(tokens, at) or _read_whole_and_more(tokens, at) or _read_vague(tokens, at)
    return _read_point_first(tokens, at) if text == "." else None


def times(quantity: Number, size: int) -> Number:
    """The product, a whole number where it comes out whole: these are added many times faster than fractions."""
    if isinstance(quantity, int):
        return quantity * size
    whole, rest = divmod(quantity.numerator * size, quantity.denominator)
    return quantity * size if rest else whole


def _read_plain_digits(tokens: Tokens, at: int) -> Found[Number] | None:
    """Digits that the next token leaves as they are: most numbers."""
    value = digits_at(tokens, at)
    if value is None:
        return None
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    return None if following and (following.kind == "number" or following.text in _GOES_ON) else Found(value, at + 1)


def read_fraction(tokens: Tokens, at: int) -> Found[Number] | None:
    """A part of one: half, a quarter, three quarters, 3/4, ½."""
    text = text_at(tokens, at)
    if text in _SIGNS:
        return Found(_SIGNS[text], at + 1)
    if is_number(tokens, at):
        return _read_ratio(tokens, at) or _read_counted_parts(tokens, at)
    if text in _ARTICLES and text_at(tokens, at + 1) in _PARTS:
        return Found(_PARTS[text_at(tokens, at + 1)], at + 2)
    if text in _PARTS:
        return Found(_PARTS[text], at + 1)
    return _read_counted_parts(tokens, at)


def _read_counted_parts(tokens: Tokens, at: int) -> Found[Number] | None:
    """three quarters, three-quarters, 3 quarters."""
    count = ONES.get(text_at(tokens, at)) or digits_at(tokens, at)
    part_at = at + 2 if text_at(tokens, at + 1) == "-" else at + 1
    part = _PARTS.get(text_at(tokens, part_at))
    return Found(count * part, part_at + 1) if count and part else None


def _read_below_hundred(tokens: Tokens, at: int) -> Found[int] | None:
    text = text_at(tokens, at)
    if text in ONES:
        return Found(ONES[text], at + 1)
    if text not in TENS:
        return None
    last = at + 2 if text_at(tokens, at + 1) == "-" else at + 1
    one = ONES.get(text_at(tokens, last), 0)
    if not 0 < one < 10 and text_at(tokens, at + 1) == "and":
        last, one = at + 2, ONES.get(text_at(tokens, at + 2), 0)
    return Found(TENS[text] + one, last + 1) if 0 < one < 10 else Found(TENS[text], at + 1)


def _with_rest(tokens: Tokens, at: int, hundreds: int) -> Found[int]:
    rest = _read_below_hundred(tokens, at + 1 if text_at(tokens, at) == "and" else at)
    return Found(hundreds + rest.value, rest.end) if rest else Found(hundreds, at)


def _read_decimal(tokens: Tokens, at: int) -> Found[Number] | None:
    """2.5 or 2,5: digits, point or comma, digits, with no space between."""
    if text_at(tokens, at + 1) not in (".", ",") or not (tokens[at + 1].glued and is_glued(tokens, at + 2)):
        return None
    whole, places = digits_at(tokens, at), digits_at(tokens, at + 2)
    if whole is None or places is None:
        return None
    ones = 10 ** len(tokens[at + 2].text)
    return Found(Fraction(whole * ones + places, ones), at + 3)


def _read_point_first(tokens: Tokens, at: int) -> Found[Number] | None:
    places = digits_at(tokens, at + 1) if is_glued(tokens, at + 1) else None
    return None if places is None else Found(Fraction(places, 10 ** len(tokens[at + 1].text)), at + 2)


def _read_whole_and_more(tokens: Tokens, at: int) -> Found[Number] | None:
    whole = read_whole(tokens, at)
    return (_read_point_said(tokens, whole) or _with_fraction(tokens, whole)) if whole else None


def _read_point_said(tokens: Tokens, whole: Found[int]) -> Found[Number] | None:
    """two point five: one place, for nobody says more of hours."""
    place = ONES.get(text_at(tokens, whole.end + 1)) if text_at(tokens, whole.end) == "point" else None
    return Found(whole.value + Fraction(place, 10), whole.end + 2) if place is not None and place < 10 else None


def _read_ratio(tokens: Tokens, at: int) -> Found[Number] | None:
    if text_at(tokens, at + 1) not in ("/", "⁄"):
        return None
    above, below = digits_at(tokens, at), digits_at(tokens, at + 2)
    if above is None or not below:
        return None
    return Found(Fraction(above, below), at + 3)


def _with_fraction(tokens: Tokens, whole: Found[int]) -> Found[Number]:
    """whole ["and"] fraction; without "and" only a sign or digits may follow: 1½, 1 1/2."""
    joined = text_at(tokens, whole.end) in ("and", "&")
    fraction = read_fraction(tokens, whole.end + 1 if joined else whole.end)
    if fraction is None or fraction.value >= 1 or not (joined or is_number(tokens, whole.end)):
        return Found(whole.value, whole.end)
    return Found(whole.value + fraction.value, fraction.end)


def _read_vague(tokens: Tokens, at: int) -> Found[Number] | None:
    article = text_at(tokens, at) in ("a", "an")
    last = at + 1 if article else at
    value = _VAGUE.get(text_at(tokens, last))
    if value is not None:
        return Found(value, last + 2 if text_at(tokens, last + 1) == "of" else last + 1)
    return Found(1, at + 1) if article else None
