"""Commitments to add: fixed in time, made with others.

commitment := ("appt" | "meeting" | "shift" | …) {title | moment | days | rule | amount | category | flag | travel}
            | {title | moment with a day and a time | rule with a time | category | flag | travel}
flag       := "minor" | "major" | "outdoors" | "indoors"

Without the word that says so, a title must look like one, and the moment must
lie ahead: "picnic sunday 12-15" is one, "see you sunday" is talk.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from itertools import product

from bot.language.days_long import DAY_MINUTES, Days, Lasting, daily, days_ahead, lasting_days, lasting_said
from bot.language.elapsed import later
from bot.language.meaning import AddCommitment, Ask
from bot.language.moments import Moment
from bot.language.partial_days import day_or_none
from bot.language.phrase import QUOTED, Explained, Phrase, explain, opened_by
from bot.language.recurrence import Rule, first_ahead, read_until, until
from bot.language.slots import Amount, amount_said, moment_ahead, rule_said
from bot.language.titles import Title, is_no_time, looks_like_title, title_of
from bot.language.tokens import Found
from bot.language.travel_said import travel_said
from bot.language.weekday_lists import EVERY
from bot.language.weekdays import every_week
from bot.rules.travel import NONE_SAID, Travel
from bot.rules.weeks import DAY_CODES

OPENING = opened_by(
    "appt | appts | appointment | an appointment | app | meeting | a meeting | shift | a shift | commitment | event | class | add "
    "appt | add appointment | add meeting | add shift | add event | add class | add commitment | new appt | new appointment | new "
    "meeting | new event | schedule | plan | i have an appointment | i have a meeting | i have a shift"
)
KEPT_IN_A_TITLE = frozenset({"meeting", "shift", "class", "event"})
FLAGS = {"minor": "minor", "major": "major", "outdoors": "outdoors", "outdoor": "outdoors", "outside": "outdoors", "indoors": "indoors"}
LONGEST = 30
LATE = time(21)
"""Common practice, no source: what is made with others seldom begins from then on, and as often from nine in the morning."""
YEAR_DAYS = 365
JUST_OVER = 60
"""In days. No source: within two months a day is likelier mistaken than planned ten months ahead."""


@dataclass(frozen=True, slots=True)
class Flag:
    """minor, major, outdoors or indoors."""

    name: str


@dataclass(frozen=True, slots=True)
class Until:
    """The last day of a recurrence."""

    day: date


@dataclass(frozen=True, slots=True)
class When:
    """When it takes place, put together from all that was said of it."""

    day: date | None = None
    start: time | None = None
    end: time | None = None
    rule: str | None = None


def read_commitment(phrase: Phrase) -> AddCommitment | Ask | None:
    """A commitment that is called one, and so is another of its name. Figures with an "h" are a length where a time is said as well."""
    start = OPENING(phrase)
    if not start:
        return None
    for readers in (LENGTHS_FIRST, TIMES_FIRST):
        said = explain(phrase.part(start), readers)
        whens = _whens(said)
        title = _titled(said, phrase.word(start - 1)) if whens else Title("")
        if title.text and (whens[0].start is not None or not said.all(Amount)):
            return _commitment(said, title, whens, another=True)
    return None


def read_plain_commitment(phrase: Phrase) -> AddCommitment | Ask | None:
    """A commitment that only its shape tells: a title, and a day and time ahead or a rule."""
    if len(phrase.tokens) > LONGEST or OPENING(phrase):
        return None
    said = explain(phrase, LENGTHS_FIRST)
    title = title_of(said, shortest=1)
    if not title.text or not looks_like_title(said):
        return None
    whens = _whens(said)
    if not whens or whens[0].start is None or not _is_fixed(said, whens[0]):
        return None
    return _commitment(said, title, whens)


def read_another_time(phrase: Phrase) -> AddCommitment | None:
    """The commitment just before on the line, at one more time: shift tue 13-17 and thu 12-18."""
    found, before = moment_ahead(phrase, 0), phrase.before
    if not isinstance(before, AddCommitment) or found is None or found.end < len(phrase.tokens) or found.value.start is None:
        return None
    day = found.value.day if found.value.day_said else None
    return replace(before, day=day or before.day, start=found.value.start, end=found.value.end, rule=None)


def _is_fixed(said: Explained, when: When) -> bool:
    """Whether a rule, or a day that is not over, was said outright, and a time of day in figures or as noon."""
    moments = [piece for piece in said.pieces if isinstance(piece.value, Moment | Rule | Days)]
    tokens = [token for piece in moments for token in said.phrase.tokens[piece.at : piece.end]]
    if not any(token.kind == "number" or token.text in ("noon", "midday") for token in tokens):
        return False
    ahead = when.day is not None and when.day >= said.phrase.context.now.date()
    return when.rule is not None or (ahead and any(moment.day_said for moment in said.all(Moment)))


def until_said(phrase: Phrase, at: int) -> Found[Until] | None:
    """until day, apart from the rule that it ends: lecture every mon 9-11 learning until may 1."""
    last = read_until(phrase.tokens, at, phrase.context)
    return Found(Until(last.value), last.end) if last else None


def amount_with_unit(phrase: Phrase, at: int) -> Found[Amount] | None:
    """An amount that is no time: 2h, and not 12:30."""
    return None if phrase.word(at + 1) == ":" else amount_said(phrase, at)


def flag_said(phrase: Phrase, at: int) -> Found[Flag] | None:
    """minor, outdoors …"""
    name = FLAGS.get(phrase.word(at))
    return Found(Flag(name), at + 1) if name else None


def _titled(said: Explained, kind: str) -> Title:
    """The title; "meeting with Ann" keeps its first word, and where nothing else is left that word is the title."""
    title = title_of(said, shortest=1)
    if any(said.phrase.word(at) == QUOTED for at in said.left):
        return title
    if any(is_no_time(said, at) for at in said.left):
        return Title("")
    if kind not in KEPT_IN_A_TITLE:
        return replace(title, text=_without_with(title.text))
    if not title.text:
        return replace(title, text=kind)
    joined = said.left[0] == 0 and said.phrase.word(0) in ("with", "w", "about", "at")
    text = f"with {_without_with(title.text)}" if said.phrase.word(0) == "w" else title.text
    return replace(title, text=f"{kind} {text}") if joined else title


def _without_with(title: str) -> str:
    """An appointment with the dentist is called dentist."""
    words = title.split(" ")
    while len(words) > 1 and words[0].lower() in ("with", "w", "the", "at"):
        words = words[1:]
    return " ".join(words)


def _commitment(said: Explained, title: Title, whens: list[When], *, another: bool = False) -> AddCommitment | Ask:
    flags = {flag.name for flag in said.all(Flag)}
    major, outdoors = "minor" not in flags, "outdoors" in flags
    travel = said.one(Travel) or NONE_SAID
    now = said.phrase.context.now
    choices = tuple(
        AddCommitment(
            title.text,
            when.day or _next_day(when.start, now),
            when.start,
            when.end,
            title.category,
            when.rule,
            major,
            outdoors,
            travel.before,
            travel.after,
            when.rule is not None and _is_loose(said.phrase, when.rule),
            another=another,
        )
        for each in whens
        for when in _in_either_year(said, each)
    )
    return choices[0] if len(choices) == 1 else Ask(choices)


def _is_loose(phrase: Phrase, rule: str) -> bool:
    """Whether days are named that may be those of every week or only the coming ones: tue and thu, mon-fri, weekend."""
    weekly = any(word.text in EVERY or word.text.endswith(("weekly", "days", "weekends")) for word in phrase.tokens)
    return not weekly and rule.startswith("FREQ=WEEKLY;BYDAY=") and "," in rule and ";" not in rule.removeprefix("FREQ=WEEKLY;")


def _in_either_year(said: Explained, when: When) -> tuple[When, ...]:
    """Of a day without a year that was over not long ago nobody can say whether it is meant as that or as next year's."""
    today = said.phrase.context.now.date()
    year_said = any((len(token.text) > 3 and token.kind == "number") or token.text in ("year", "next") for token in said.phrase.tokens)
    if when.rule or when.day is None or year_said or (when.day - today).days < YEAR_DAYS - JUST_OVER:
        return (when,)
    before = day_or_none(when.day.year - 1, when.day.month, when.day.day)
    return (replace(when, day=before), when) if before is not None and before < today else (when,)


def _whens(said: Explained) -> list[When]:
    """What was said of the time, likeliest first; none when that is nothing, or contradicts itself."""
    rules, moments = [*said.all(Rule), *map(daily, said.all(Days))], said.all(Moment)
    rules = lasting_days(rules, moments, said.one(Lasting))
    if len(rules) > 1 or said.twice(Amount, Travel, Until, Lasting) or not (rules or moments):
        return []
    last = said.one(Until)
    if last is not None:
        ended = until(rules[0].text, last.day) if rules else None
        if ended is None:
            return []
        rules = [replace(rules[0], text=ended)]
    options = product(*(_readings(moment) for moment in moments))
    whens = [_when(rules[0] if rules else None, list(option), said.one(Amount), said.phrase.context.now) for option in options]
    found = [when for when in whens if when is not None and (when.start or not when.end)]
    likely = [when for when in found if not _is_late(when, found)]
    return [_weekly(when) for when in likely] if _comes_again(said) else likely


def _comes_again(said: Explained) -> bool:
    """Whether a day with its hour is named in the plural, beside no rule: thursdays 4."""
    days = (said.phrase.tokens[piece.at : piece.end] for piece in said.pieces if isinstance(piece.value, Moment))
    return not said.all(Rule) and any(every_week(tokens) for tokens in days)


def _weekly(when: When) -> When:
    return when if when.day is None else replace(when, rule=f"FREQ=WEEKLY;BYDAY={DAY_CODES[when.day.weekday()]}")


def _is_late(when: When, found: list[When]) -> bool:
    """Whether it begins late in the evening where it may as well begin in the morning: 10:00 is no 22:00."""
    if when.start is None or when.start < LATE:
        return False
    return any(other.day == when.day and other.start == when.start.replace(hour=when.start.hour - 12) for other in found)


def _readings(moment: Moment) -> list[Moment]:
    """As likely ones. "In 2 weeks" may be meant to the minute, or as a day."""
    there = moment.distance
    if there is not None:
        return [replace(moment, day=there.date(), start=time(there.hour, there.minute)), moment]
    return [moment, *moment.others]


def _when(rule: Rule | None, moments: list[Moment], amount: Amount | None, now: datetime) -> When | None:
    days = {moment.day for moment in moments if moment.day and moment.day_said} or ({rule.first} if rule and rule.first else set())
    timed: list[Rule | Moment] = [*moments, rule] if rule else [*moments]
    starts = {at.start for at in timed if at.start}
    ends = {at.end for at in timed if at.end}
    if max(len(days), len(starts), len(ends)) > 1:
        return None
    day, start, end = next(iter(days), None), next(iter(starts), None), next(iter(ends), None)
    day = first_ahead(rule.text, day, start, now) if rule else day
    if amount is not None and start is not None and end is None and amount.minutes < DAY_MINUTES:
        end = later(day or now.date(), start, amount.minutes, now.tzinfo)
    return When(day, start, end, rule.text if rule else None)


def _next_day(start: time | None, now: datetime) -> date:
    """Today, or tomorrow for a time that has passed."""
    passed = start is not None and start <= now.time()
    return now.date() + timedelta(days=1) if passed else now.date()


LENGTHS_FIRST = (rule_said, until_said, days_ahead, lasting_said, amount_with_unit, travel_said, moment_ahead, flag_said)
TIMES_FIRST = (rule_said, until_said, days_ahead, lasting_said, moment_ahead, amount_with_unit, flag_said, travel_said)
"""Of two readings as long, the earlier reader's wins: 2h is a length, or two o'clock; 15 min before is for the way."""
