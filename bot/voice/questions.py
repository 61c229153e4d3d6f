"""What is asked back, and what was not understood: always with buttons."""

from __future__ import annotations

from bot.language.context import Context
from bot.language.meaning import AddCommitment, AddTask, Close, Log, Meaning, Set, Several, Undo
from bot.language.plan_meaning import NotToday
from bot.language.standing_meaning import DropRoutine, TakesPlace
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
ANSWERS: dict[frozenset[type], dict[type, str]] = {
    frozenset({Close, NotToday}): {Close: "Done", NotToday: "Not for today"},
    frozenset({NotToday, DropRoutine}): {NotToday: "Only today", DropRoutine: "For good"},
}
"""What answers the question above in its own words."""
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
    choices = reply.choices[:MOST_CHOICES]
    labels = _answers(choices, manners) or [_label(choice, manners, context) for choice in choices]
    return page.message(tuple((Tap(clipped(label, LONGEST_LABEL), choice, True),) for choice, label in zip(choices, labels, strict=True)))


def _label(choice: Meaning, manners: Manners, context: Context) -> str:
    is_bare = isinstance(choice, Close) and choice.minutes == 0
    return "Done, without hours" if is_bare else labelled(choice, context, manners.clock_style)


def _answers(choices: tuple[Meaning, ...], manners: Manners) -> list[str]:
    """The choices as answers to what is asked; none where some have no answer of their own, or two the same."""
    kinds = frozenset(map(type, choices))
    answers = [ANSWERS.get(kinds, {}).get(type(choice)) for choice in choices]
    if kinds == {AddCommitment, Log}:
        answers = [_planned_or_spent(choice, manners) for choice in choices]
    if kinds == {TakesPlace}:
        answers = [manners.day(choice.day) if isinstance(choice, TakesPlace) and choice.day else None for choice in choices]
    known = {answer: None for answer in answers if answer is not None}
    return list(known) if len(known) == len(choices) else []


def _planned_or_spent(choice: Meaning, manners: Manners) -> str | None:
    """ "Planned: Sat 7 Mar, 13:00–17:00", or "Spent: yesterday, 13:00–17:00"; None where there is more to tell of it."""
    if isinstance(choice, AddCommitment) and choice.start is not None and choice.rule is None:
        return f"Planned: {manners.near_day(choice.day)}, {manners.times(choice.start, choice.end)}"
    stint = choice.stints[0] if isinstance(choice, Log) and len(choice.stints) == 1 else None
    if stint is not None and stint.start is not None and not stint.break_minutes:
        return f"Spent: {manners.near_day(stint.day)}, {manners.times(stint.start, stint.end)}"
    return None


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
