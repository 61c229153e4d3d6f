"""Pictures, printed pages and other files that a reply asks for.

file  := {what | "picture" | "page" | span | category | paper | filler}
paper := "a4" | ["us"] "letter"

A picture is of a week, or of hours over weeks where hours, a category or more than a week is said.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bot.language.meaning import Form, Show, What
from bot.language.phrase import Opening, Phrase, opened_by
from bot.language.spans import Span
from bot.language.tokens import Found
from bot.rules.weeks import DAYS_A_WEEK

FILES: dict[str, Literal["picture", "page"]] = {
    "picture": "picture",
    "chart": "picture",
    "graph": "picture",
    "page": "page",
    "printable": "page",
    "printout": "page",
}
FORMS: tuple[tuple[Opening, Form], ...] = ((opened_by("a4 | a 4"), "a4"), (opened_by("letter | us letter"), "letter"))


@dataclass(frozen=True, slots=True)
class Filed:
    """A word for a kind of file."""

    kind: Literal["picture", "page"]


@dataclass(frozen=True, slots=True)
class Formed:
    """A word for the form of a file."""

    form: Form


def file_said(phrase: Phrase, at: int) -> Found[Filed] | None:
    """The word for a picture or a page; "printable page" is one thing."""
    kind = FILES.get(phrase.word(at))
    if kind is None:
        return None
    return Found(Filed(kind), at + 2 if phrase.word(at) == "printable" and phrase.word(at + 1) == "page" else at + 1)


def form_said(phrase: Phrase, at: int) -> Found[Formed] | None:
    """The word for the form that is wanted."""
    for opening, form in FORMS:
        length = opening(phrase, at)
        if length:
            return Found(Formed(form), at + length)
    return None


def file_shown(
    kind: Literal["picture", "page"], form: Form | None, whats: set[What], span: Span | None, category: str | None
) -> Show | None:
    """The one file that the words add up to, or None when they do not."""
    first, last = (span.first, span.last) if span else (None, None)
    if kind == "page":
        fits = not whats - {"week"} and category is None and (span is None or not _is_longer_than_a_week(span))
        return Show("week_page", first=first, last=last, form=form) if fits else None
    if form is not None or whats - {"week", "hours"}:
        return None
    if "hours" in whats or category is not None or (span is not None and _is_longer_than_a_week(span)):
        return Show("hours_picture", first=first, last=last, category=category)
    return Show("week_picture", first=first, last=last)


def _is_longer_than_a_week(span: Span) -> bool:
    return (span.last - span.first).days >= DAYS_A_WEEK
