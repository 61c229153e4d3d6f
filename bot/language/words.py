"""Small words, by the part they play. A reply may be a plain sentence, and these are what a sentence adds."""

from __future__ import annotations

COURTESY = frozenset("please pls plz ok okay hi hey hello so also yes yep yeah yup sure and hm um oh thanks".split())
"""May open any reply without changing it."""

ARTICLES = frozenset("the a an my our some your this that more".split())

AT_A_CATEGORY = frozenset("in at on with w for of to doing into from".split())
"""May stand before a category: in the workshop, with the kids."""

AFTER_A_CATEGORY = frozenset("work time stuff session shift job hours".split())
"""May stand after a category: museum shift, course work."""

SPENT = frozenset("played worked spent did had put log logged done working spending was record recorded book track add clocked".split())
"""May open a reply that tells of hours."""

SPEAKERS = frozenset("i we i've we've".split())

BETWEEN_SPEAKER_AND_VERB = frozenset("have had just also only then was were".split())

CLOSERS = frozenset("too please pls thanks thx total altogether overall well again today's now . ! , ;".split())
"""May end a reply without changing it."""

FUNCTION_WORDS = frozenset(
    """
    a an the this that these those it its it's i i'm i'll i'd i've me my mine you your yours you're he she him her his hers
    we us our they them their who what when where why how which if so but or nor as than then there here
    is are was were be been being am isn't aren't wasn't weren't do does did don't doesn't didn't have has had haven't hasn't
    will would can could should shall may might must won't can't cannot couldn't wouldn't shouldn't
    not no yes just really very too also even still already ever never always maybe perhaps almost enough
    in on at by for from of off out over under up down with without about around into onto to through like
    and because let let's please thanks thank sorry ok okay hey hi hello well oh
    everything nothing something anything everyone everybody nobody somebody anybody someone anyone all none both each guys folks
    today tomorrow yesterday tonight now soon later again
    """.split()
)
"""Words that show a sentence, not the name of a task."""

NO_TITLE = frozenset(
    """
    dead deal call door line calls kids me it everything anything lunch dinner breakfast shopping eating cooking cleaning talking reading
    strong well early late first last fast hard harder soon already yet ages hours minutes days weeks years
    work working sleep sleeping school homework tomorrow today tonight yesterday monday tuesday wednesday thursday friday saturday sunday
    enough friends friend up ups down notifications boundaries forward ahead back right left fine good great
    """.split()
)
"""Words that follow done, close or drop in talk: done deal, drop dead, close call, close friends."""

MORE = frozenset({"more", "another", "extra", "further", "additional", "left", "late", "fewer", "only"})
"""With these an amount is not one that was spent."""

UNDONE = frozenset("not half almost nearly partly mostly barely hardly never isn't aren't".split())
"""Before "done" these tell that something is not, or not all of it."""
