"""A category that is made by chat, and known to what is said behind it.

category := name [("in" | "under" | ",") section] [("alias" | "called" | …) alias {"," alias}]

Its value in normal form is "name; section", or "name; section; alias, alias".
"""

from __future__ import annotations

from dataclasses import replace
from functools import reduce

from bot.language.context import Named
from bot.language.meaning import Meaning, Set, Several
from bot.language.names import names_known
from bot.language.phrase import Phrase, opened_by

NEW_CATEGORY = opened_by("category | new category | add category | add a category")
ALIASES = frozenset({"alias", "aliases", "called", "or", "aka"})
IN_A_SECTION = frozenset({"in", "under", ","})


def read_new_category(phrase: Phrase) -> Set | None:
    """A category that is made at the beginning of a line that goes on."""
    start = NEW_CATEGORY(phrase)
    value = read_category(phrase.part(start)) if start and not phrase.tokens[0].start else None
    return Set("category", value) if value else None


def read_category(phrase: Phrase) -> str | None:
    """The category in its normal form; in the first section where none is said."""
    words = [token.text for token in phrase.tokens]
    alias_at = next((at for at, word in enumerate(words) if word in ALIASES and at), len(words))
    end, section = alias_at, phrase.context.sections[0] if phrase.context.sections else "personal"
    sections = {name.lower(): name for name in phrase.context.sections}
    if end > 1 and words[end - 1] in sections:
        section = sections[words[end - 1]]
        end = end - 2 if end > 2 and words[end - 2] in IN_A_SECTION else end - 1
    name = phrase.original(0, end).strip(" ,;")
    aliases = [alias.strip().lower() for alias in phrase.original(alias_at + 1, len(words)).replace(";", ",").split(",")]
    called = ", ".join(alias for alias in aliases if alias)
    if not name or ";" in name:
        return None
    return f"{name}; {section}; {called}" if called else f"{name}; {section}"


def knowing(phrase: Phrase, said: Meaning) -> Phrase:
    """What follows ``said``, to a reader who knows the category that it makes: category pottery, 2h pottery."""
    if isinstance(said, Several):
        return reduce(knowing, said.parts, phrase)
    if not isinstance(said, Set) or said.name != "category":
        return phrase
    name, section, *aliases = (part.strip() for part in said.value.split(";"))
    made = Named(name, tuple(alias.strip() for alias in ",".join(aliases).split(",") if alias.strip()), section)
    known = (*phrase.context.categories, made)
    return replace(phrase, context=replace(phrase.context, categories=known), names=names_known(known))
