"""Settings changed by a reply.

set := ["set" | "change" | "put" | "my" | "the"] name ["message"] ["at" | "to" | "is" | "=" | ":"] value | alone
alone := "quiet" | "speak again" | … | ["use" ["the"]] ("12-hour clock" | "24-hour clock" | "am and pm")

Names, and the normal form of their values:

==============  =========================================================
morning         HH:MM, when the morning message comes
evening         HH:MM, when the evening nudge comes
recap           HH:MM, when the Sunday recap comes
waking          HH:MM-HH:MM, the waking window
week_starts     monday … sunday
dates           day-month, or month-day
clock           12-hour, or 24-hour, by which times of day are answered; they are read by both
place           the place's name as typed
zone            a zone's name as typed, "Europe/Brussels"
free_share      0 to 90, in per cent, the share of free hours that stays free
travel          0 to 240, in minutes, for the way to every commitment and back
quiet           an ISO day until which nothing comes unasked, or on, or off
decimals        comma or point, how figures are written
holidays        on or off, whether public holidays stand beside the days
pictures        on or off, whether one comes with the recap; light or dark, how they look
category        name; section[; alias, alias …] to add one: "choir; personal; singing"
==============  =========================================================

An evening time without am or pm is in the evening, a morning time in the morning.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import time, timedelta
from typing import TypeAlias

from bot.language.amounts import read_amount, read_span
from bot.language.clock import read_spoken
from bot.language.hours import read_hours
from bot.language.meaning import Ask, Set
from bot.language.new_categories import NEW_CATEGORY, read_category
from bot.language.numbers import digits_at
from bot.language.phrase import Opening, Phrase, opened_by
from bot.language.slots import day_ahead
from bot.language.times_of_day import minutes_of, readings
from bot.language.travel_said import LONGEST
from bot.language.weekdays import WEEKDAYS, weekday_at
from bot.language.words import ARTICLES
from storage.records import ClockStyle, DateOrder

LEAD = opened_by(
    "set | set my | set the | change | change my | change the | put | put my | put the | my | the | make my | make the | please set"
)
JOINTS = frozenset({"at", "to", "is", "=", ":", "on", "from", "of", "are", "in", "until", "by"})
MOST_FREE = 90
MOST_NAME_TOKENS = 6
NOON = 12 * 60
SHORTEST_WAKING = 6 * 60
HOURS = ("hour", "- hour", "hours", "h")
ValueReader: TypeAlias = Callable[[Phrase], str | None]


def read_set(phrase: Phrase) -> Set | Ask | None:
    """A setting and its new value, when the whole phrase is just that."""
    alone = _said_alone(phrase) or _quiet_then(phrase)
    if alone is not None:
        return alone
    start = LEAD(phrase)
    for opening, name, reader in SETTINGS:
        end = opening(phrase, start)
        if end:
            at = start + end
            at = at + 1 if phrase.word(at) in JOINTS and at + 1 < len(phrase.tokens) else at
            value = reader(_without_end(phrase.part(at)))
            return Set(name, value) if value else None
    return None


def _said_alone(phrase: Phrase) -> Set | None:
    """Asking for quiet without an end, ending it, and a clock by its name, when that is all that is said."""
    whole = len(_without_end(phrase).tokens)
    for opening, said in ALONE:
        if whole and opening(phrase) == whole and not (said.name == "clock" and _is_worked_on(phrase, phrase.word(whole - 1))):
            return said
    return None


def _quiet_then(phrase: Phrase) -> Set | Ask | None:
    """A day, weekend or week of quiet that does not begin today: quiet saturday. When quiet begins is not kept, so its ends are choices."""
    said = _without_end(phrase)
    at = max((opening(said) for opening, name, _ in SETTINGS if name == "quiet"), default=0)
    at = at + 1 if at and said.word(at) in ("on", "this") else at
    day, today = day_ahead(said, at) if at else None, said.context.now.date()
    if day is None or day.end < len(said.tokens):
        return None
    first = today if said.word(at) in WEEKDAYS and day.value == today + timedelta(days=7) else day.value
    lasts = LASTING.get(said.word(day.end - 1), 1)
    over = Set("quiet", (first + timedelta(days=lasts)).isoformat())
    return Ask((over, Set("quiet", first.isoformat()))) if first > today else over


def _is_worked_on(phrase: Phrase, word: str) -> bool:
    """Whether who says the word may be logging hours, having a category of that name."""
    return word in phrase.names.starts


def _without_end(phrase: Phrase) -> Phrase:
    end = len(phrase.tokens)
    while end and phrase.word(end - 1) in (".", "!", ",", "please"):
        end -= 1
    return phrase.part(0, end)


def _before_noon(phrase: Phrase) -> str | None:
    return _time(phrase, lambda minute: minute < NOON)


def _after_noon(phrase: Phrase) -> str | None:
    return _time(phrase, lambda minute: minute >= NOON)


def _time(phrase: Phrase, likely: Callable[[int], bool]) -> str | None:
    """A time that is the whole phrase; of its readings the likely one."""
    found = read_spoken(phrase.tokens, 0)
    if found is None or found.end != len(phrase.tokens):
        return None
    options = readings(found.value)
    minute = next((option for option in options if likely(option)), options[0]) % (24 * 60)
    return f"{time(minute // 60, minute % 60):%H:%M}"


def _on_sunday(phrase: Phrase) -> str | None:
    """The time of the recap, whose day is always sunday."""
    at = 1 if phrase.word(0) in ("sunday", "sundays", "sun") else 0
    return _after_noon(phrase.part(at + 1 if at and phrase.word(at) == "at" else at))


def _window(phrase: Phrase) -> str | None:
    """From getting up to going to bed; a short window surely ends in the evening, or after midnight: 8-2."""
    found = read_hours(phrase.tokens, 0, phrase.context, "forward", today=False)
    if found is None or found.end != len(phrase.tokens) or found.value.start is None or found.value.end is None:
        return None
    start, end = minutes_of(found.value.start), minutes_of(found.value.end)
    if 0 < end - start < SHORTEST_WAKING and end < NOON:
        end += NOON
    elif 0 < end - start <= SHORTEST_WAKING and end > NOON and _may_be_night(phrase, end):
        end -= NOON
    if start >= NOON and phrase.word(0).isdigit() and int(phrase.word(0)) < 12:
        start -= NOON
    return f"{time(start // 60, start % 60):%H:%M}-{time(end // 60, end % 60):%H:%M}"


def _may_be_night(phrase: Phrase, minute: int) -> bool:
    """Whether an end in the afternoon was said by a figure that the night has, too: the 2 of 8-2."""
    words = {token.text for token in phrase.tokens}
    return str((minute - NOON) // 60) in words and words.isdisjoint({"pm", "p"})


def _weekday(phrase: Phrase) -> str | None:
    found = weekday_at(phrase.tokens, 0)
    return found.value.name.lower() if found is not None and found.end == len(phrase.tokens) else None


def _date_order(phrase: Phrase) -> str | None:
    first = phrase.word(0)
    if first.startswith(("month", "mm")):
        return DateOrder.MONTH_DAY.value
    return DateOrder.DAY_MONTH.value if first.startswith(("day", "dd")) else None


def _clock(phrase: Phrase) -> str | None:
    """12-hour, with am and pm, 24 hours"""
    said = " ".join(token.text for token in phrase.tokens)
    said = said.removeprefix("with ").removeprefix("as ").removeprefix("in ").removesuffix(" clock")
    return CLOCKS.get(said) if not _is_worked_on(phrase, "clock") else None


def _as_typed(phrase: Phrase) -> str | None:
    return phrase.original(0, len(phrase.tokens)) or None


def _place(phrase: Phrase) -> str | None:
    """A name of a few words; "I live in a house with 3 cats" is talk."""
    name = phrase.original(0, len(phrase.tokens))
    is_name = 0 < len(phrase.tokens) <= MOST_NAME_TOKENS and not any(char.isdigit() for char in name) and phrase.word(0) not in ARTICLES
    return name if is_name else None


def _share(phrase: Phrase) -> str | None:
    share = digits_at(phrase.tokens, 0)
    unit = " ".join(token.text for token in phrase.tokens[1:])
    return str(share) if share is not None and share <= MOST_FREE and unit in ("", "%", "percent", "per cent", "% free") else None


def _travel(phrase: Phrase) -> str | None:
    """An amount, each way, or none."""
    if _is_worked_on(phrase, "travel"):
        return None
    if phrase.word(0) in ("none", "off", "0") and len(phrase.tokens) == 1:
        return "0"
    amount = read_amount(phrase.tokens, 0)
    rest = " ".join(token.text for token in phrase.tokens[amount.end :]) if amount else None
    said = amount is not None and amount.value <= LONGEST and rest in ("", "each way", "both ways", "there and back", "before and after")
    return str(amount.value) if amount is not None and said else None


def _quiet(phrase: Phrase) -> str | None:
    """Until a day, for some days, or off."""
    if phrase.word(0) in ("off", "over", "no") and len(phrase.tokens) == 1:
        return "off"
    at = 1 if phrase.word(0) in ("until", "till", "for", "til") else 0
    day = day_ahead(phrase, at)
    if day is not None and day.end == len(phrase.tokens):
        return day.value.isoformat()
    span = read_span(phrase.tokens, at)
    days = int(span.value.seconds) // 86400 if span and not span.value.months and span.end == len(phrase.tokens) else 0
    return (phrase.context.now.date() + timedelta(days=days)).isoformat() if 0 < days < 1000 else None


def _on_or_off(phrase: Phrase) -> str | None:
    word = phrase.word(0)
    return word if word in ("on", "off") and len(phrase.tokens) == 1 else None


def _pictures(phrase: Phrase) -> str | None:
    word = phrase.word(0)
    return word if word in ("on", "off", "light", "dark") and len(phrase.tokens) == 1 else None


def _decimals(phrase: Phrase) -> str | None:
    """with a comma, a point, dot"""
    words = [token.text for token in phrase.tokens if token.text not in ("with", "a", "decimal")]
    named = {"comma": "comma", ",": "comma", "point": "point", "dot": "point", ".": "point"}
    return named.get(words[0]) if len(words) == 1 else None


LASTING = {"week": 7, "weekend": 2}
"""In days, what lasts longer than one."""

SPEAKING = opened_by("speak again | speak to me again | talk to me again | start talking again | wake up | unmute | no more quiet")
"""Ways to end the quiet that name no setting."""

KINDS = ("", " clock", " time", " times", " format")
AM_AND_PM = ("am pm", "am / pm", "am and pm", "am or pm")
CLOCKS = {
    **{f"12 {hours}": ClockStyle.TWELVE for hours in HOURS},
    **{f"24 {hours}": ClockStyle.TWENTY_FOUR for hours in HOURS},
    **dict.fromkeys(AM_AND_PM, ClockStyle.TWELVE),
}
"""What either clock is called, in tokens."""


def _called(style: ClockStyle) -> Opening:
    """The ways to ask for a clock with no more than its name."""
    named = [name for name, called in CLOCKS.items() if called is style]
    names = [f"{name}{kind}" for name in named for kind in KINDS if kind or name in AM_AND_PM]
    return opened_by(" | ".join(f"{lead}{name}" for name in names for lead in ("", "use ", "use a ", "use the ", "show ")))


BY_TWELVE, BY_TWENTY_FOUR = _called(ClockStyle.TWELVE), _called(ClockStyle.TWENTY_FOUR)

ALONE: tuple[tuple[Opening, Set], ...] = (
    (opened_by("quiet | be quiet | stay quiet | go quiet | silent | mute | quiet please | please be quiet"), Set("quiet", "on")),
    (SPEAKING, Set("quiet", "off")),
    (BY_TWELVE, Set("clock", ClockStyle.TWELVE)),
    (BY_TWENTY_FOUR, Set("clock", ClockStyle.TWENTY_FOUR)),
)
SETTINGS: tuple[tuple[Opening, str, ValueReader], ...] = (
    (opened_by("morning message | morning | mornings | morning message time"), "morning", _before_noon),
    (opened_by("evening nudge | evening message | evening | evenings | nudge"), "evening", _after_noon),
    (opened_by("recap | sunday recap | weekly recap | recap time"), "recap", _on_sunday),
    (opened_by("waking hours | waking window | waking | awake | wake | i'm awake | i am awake"), "waking", _window),
    (opened_by("week starts | week start | weeks start | first day of the week | first day | week begins"), "week_starts", _weekday),
    (opened_by("dates | date order | date format | write dates"), "dates", _date_order),
    (opened_by("clock | clock style | time format | write times | show times | tell times | times of day"), "clock", _clock),
    (opened_by("place | my place | i live in | location | city | town"), "place", _place),
    (opened_by("zone | time zone | timezone | tz"), "zone", _as_typed),
    (opened_by("free share | free hours | share free | keep free | free"), "free_share", _share),
    (opened_by("travel | travel time | usual travel"), "travel", _travel),
    (opened_by("quiet | be quiet | pause | holiday | silent | mute"), "quiet", _quiet),
    (opened_by("decimals | decimal | decimal mark | write decimals | numbers | write numbers"), "decimals", _decimals),
    (opened_by("holidays | public holidays | bank holidays"), "holidays", _on_or_off),
    (opened_by("pictures | recap pictures | picture of the recap"), "pictures", _pictures),
    (NEW_CATEGORY, "category", read_category),
)
