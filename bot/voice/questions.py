"""What is asked back, and what was not understood: always with buttons."""

from __future__ import annotations

from bot.language.context import Context
from bot.language.meaning import AddCommitment, AddTask, Close, Log, Meaning, Set, Several, Undo
from bot.language.plan_meaning import NotToday
from bot.language.standing_meaning import DropRoutine
from bot.language.understand import understand
from bot.rules.parts import Part
from bot.voice.manners import Manners
from bot.voice.message import Message, Page, Tap, clipped, one_line
from bot.voice.replies import Acknowledged, NotUnderstood, Question, UndoAsked
from bot.voice.written import labelled

LONGEST_LABEL = 44
MOST_CHOICES = 6
HEADINGS = {
    frozenset({AddCommitment, Log}): "Is that planned, or spent already?",
    frozenset({Close, NotToday}): "Is that done, or not for today?",
    frozenset({NotToday, DropRoutine}): "Only today, or for good?",
    frozenset({Set}): "I can be quiet from now on only. Until when?",
}
"""What is asked where the choices are of these kinds."""
NOTHING_TO_UNDO = {
    "hours": "Nothing was logged, so there is nothing to take back. Done before that",
    "earlier": "Done before that",
    "question": "Your last message changed nothing, so there is nothing of it to take back. Done before that",
    "message": "That message changed nothing, so there is nothing of it to take back. Done last",
    "message to redo": "That message changed nothing, so there is nothing of it to do again. Taken back last",
}


def question(reply: Question, manners: Manners, context: Context) -> Message:
    """One button a choice, labelled with the reply that would have said it, by the person's clock."""
    page = Page()
    kinds = {type(part) for choice in reply.choices for part in (choice.parts if isinstance(choice, Several) else (choice,))}
    page.line(HEADINGS.get(frozenset(kinds), "Which do you mean?"))
    rows = tuple((_choice(choice, manners, context),) for choice in reply.choices[:MOST_CHOICES])
    return page.message(rows)


def _choice(choice: Meaning, manners: Manners, context: Context) -> Tap:
    return Tap(clipped(labelled(choice, context, manners.clock_style), LONGEST_LABEL), choice, True)


def undo_asked(reply: UndoAsked) -> Message:
    """That there is nothing to take back of what was only asked or did nothing, and a button for what was done before it."""
    label = "Do that again" if reply.of == "message to redo" else "Take that back"
    return one_line(f"{NOTHING_TO_UNDO[reply.of]}: “{reply.summary}”", ((Tap(label, Undo(reply.entry)),),))


def acknowledged(reply: Acknowledged, manners: Manners) -> Message:
    """One short answer to someone who is polite, that promises nothing."""
    said = {
        "thanks": "You are welcome.",
        "greeting": f"Good {reply.part}. “today” shows your day.",
        "goodbye": "Good night." if reply.part is Part.EVENING else "See you.",
        "agreed": "All right, nothing changed. To answer a question of mine, tap one of its buttons.",
    }
    return one_line(said[reply.courtesy])


def not_understood(reply: NotUnderstood, manners: Manners, context: Context) -> Message:
    """The nearest replies that would have worked as buttons, and one that keeps the text as a task."""
    page = Page()
    what_is_kept = f"this stays: {reply.stays}" if reply.stays else "nothing is recorded."
    page.line(f"I did not understand that, so {what_is_kept}")
    near = [Tap(clipped(text, LONGEST_LABEL), understand(text, context), True) for text in reply.near]
    if near:
        page.line("Closest to what I know:")
    keep = Tap("Keep as task", AddTask(clipped(" ".join(reply.text.split()), 120), manners.today), True)
    return page.message((*((tap,) for tap in near), (keep,)))
