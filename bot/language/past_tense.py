"""What a verb is in its plain form: called, call; bought, buy; tidied, tidy.

Regular forms follow their spelling. The irregular ones are those of verbs that errands and chores are titled with; from memory.
"""

from __future__ import annotations

IRREGULAR = {
    past: plain
    for plain, forms in {
        "begin": "began begun",
        "bind": "bound",
        "blow": "blew blown",
        "break": "broke broken",
        "bring": "brought",
        "build": "built",
        "buy": "bought",
        "catch": "caught",
        "choose": "chose chosen",
        "dig": "dug",
        "do": "did done",
        "draw": "drew drawn",
        "drive": "drove driven",
        "feed": "fed",
        "find": "found",
        "fly": "flew flown",
        "freeze": "froze frozen",
        "get": "got gotten",
        "give": "gave given",
        "go": "went gone",
        "grind": "ground",
        "grow": "grew grown",
        "hang": "hung",
        "hear": "heard",
        "hide": "hid hidden",
        "hold": "held",
        "keep": "kept",
        "lay": "laid",
        "learn": "learnt",
        "leave": "left",
        "lend": "lent",
        "light": "lit",
        "make": "made",
        "meet": "met",
        "mow": "mown",
        "pay": "paid",
        "repay": "repaid",
        "ride": "rode ridden",
        "ring": "rang rung",
        "rewrite": "rewrote rewritten",
        "run": "ran",
        "see": "saw seen",
        "seek": "sought",
        "sell": "sold",
        "send": "sent",
        "sew": "sewn",
        "shake": "shook shaken",
        "show": "shown",
        "sing": "sang sung",
        "sow": "sown",
        "speak": "spoke spoken",
        "spin": "spun",
        "stick": "stuck",
        "string": "strung",
        "sweep": "swept",
        "swim": "swam swum",
        "take": "took taken",
        "teach": "taught",
        "tear": "tore torn",
        "tell": "told",
        "think": "thought",
        "throw": "threw thrown",
        "wake": "woke woken",
        "weave": "wove woven",
        "wind": "wound",
        "withdraw": "withdrew withdrawn",
        "write": "wrote written",
    }.items()
    for past in forms.split()
}
"""Forms that differ from the plain one: "put" and "read" tell nothing."""

SHORTEST = 4
"""In letters, a regular form: used."""


def plain_forms(word: str) -> frozenset[str]:
    """The verbs that ``word``, in small letters, may be the past of; none where it looks like no past at all."""
    irregular = IRREGULAR.get(word)
    if irregular is not None:
        return frozenset({irregular})
    if len(word) < SHORTEST or not word.endswith("ed"):
        return frozenset()
    stem = word.removesuffix("ed")
    doubled = {stem[:-1]} if len(stem) > 2 and stem[-1] == stem[-2] else set()
    after_i = {f"{stem[:-1]}y"} if stem.endswith("i") else set()
    return frozenset({stem, f"{stem}e", *doubled, *after_i})
