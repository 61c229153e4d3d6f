"""What people say besides: thanks, a greeting, a goodbye, a yes. It asks for nothing, so nothing is ever recorded of it.

courtesy := polite {[","] polite} {"!" | "." | face}
"""

from __future__ import annotations

from bot.language.meaning import Courtesy
from bot.language.phrase import Phrase, opened_by

POLITE: tuple[tuple[Courtesy, str], ...] = (
    (
        "thanks",
        "thanks | thank you | thank you very much | thank you so much | thanks a lot | thanks so much | many thanks | thx | ty | cheers "
        "| no thanks | no thank you",
    ),
    ("greeting", "hi | hello | hey | hi there | hello there | good morning | morning | good afternoon | good evening | good day"),
    ("goodbye", "bye | goodbye | bye bye | see you | see you later | see you tomorrow | good night | goodnight"),
    (
        "agreed",
        "ok | okay | k | alright | all right | all good | great | nice | cool | perfect | good | very good | fine | sure | got it | yes "
        "| yep | yeah | no | nope | never mind | sounds good | well done",
    ),
)
"""Where several are said, the first of these is answered."""

CALLS = tuple((courtesy, opened_by(ways)) for courtesy, ways in POLITE)
LONGEST = 8
"""In tokens."""


def read_courtesy(phrase: Phrase) -> Courtesy | None:
    """What the whole of it is, if it is nothing but that."""
    said: set[Courtesy] = set()
    at, end = 0, len(phrase.tokens)
    while at < end <= LONGEST:
        longest, courtesy = max((opening(phrase, at), courtesy) for courtesy, opening in CALLS)
        if longest:
            said.add(courtesy)
        elif phrase.tokens[at].kind != "mark" or phrase.word(at) == "?":
            return None
        at += longest or 1
    return next((courtesy for courtesy, _ in POLITE if courtesy in said), None)
