"""A reply -> what it means.

reply  := line {"\\n" line}
line   := stretch {";" stretch}
stretch:= clause {("," | "and" | "then" | …) (clause | when)} | plain {plain}
clause := [courtesy] ([day] order | hours | commitment | routine | question)
plain  := hours with their category | order about numbers
when   := day, hours or both of what the clause before it was about

From the ground up: ``tokens`` parts the text; ``numbers``, ``amounts``,
``clock`` and ``days`` (with ``simple_days`` and its families) read phrases from
tokens; ``unsettled_hours`` and ``moments`` put them together, and ``hours`` settles
what was left open; ``slots`` are these as pieces of a reply. A reader takes the
tokens and a place among them and gives what it read and where it ended, or
None: there is no other machinery. What a module reads stands in its docstring,
``:=`` for "is", ``|`` for "or", ``[ ]`` for what may be left out, ``{ }`` for
what may come again.

The first word of a clause says which kinds it can be; each kind is a small
grammar in a module of its own and answers None to whatever it is not sure of.
Where no verb opens the clause, its shape decides: an amount or hours with a
category are hours that were spent, a title with a time ahead is a commitment.
Nothing is guessed from what is left: a reply that is not understood as a whole
is ``Unknown``, with the replies nearest to it that would have been.

Pure: the same text and context give the same meaning, and no text raises.
"""

from __future__ import annotations

from bot.language.clause import read_clause
from bot.language.context import Context
from bot.language.courtesies import read_courtesy
from bot.language.meaning import Meaning, Unknown
from bot.language.near import nearest
from bot.language.phrase import Phrase
from bot.language.slips import set_right
from bot.language.splitting import read_lines

LONGEST_TEXT = 2000
"""A longer text is no short reply; reading stops being worth its time."""


def understand(text: str, context: Context) -> Meaning:
    """What ``text`` means to the person that ``context`` tells of. Never raises."""
    if len(text) > LONGEST_TEXT:
        return Unknown()
    phrase = set_right(text, context)
    return _read(phrase) or _not_read(phrase)


def _not_read(phrase: Phrase) -> Unknown:
    courtesy = read_courtesy(phrase)
    return Unknown(courtesy=courtesy) if courtesy else Unknown(nearest(phrase, _read))


def _read(phrase: Phrase) -> Meaning | None:
    return read_lines(phrase, read_clause)
