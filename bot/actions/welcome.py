"""The first conversation: one step after the other, each with a default, to be left and taken up at any point."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.actions.jobs import remove_job
from bot.actions.naming import category_name, category_named
from bot.actions.own_categories import name_categories
from bot.actions.refused import Stopped
from bot.actions.schedule import plan_paydays, plan_rounds
from bot.actions.setting import keep_setting, keep_zone_alone
from bot.language.meaning import Set, Show
from bot.language.step_replies import StepReply, keeps_default, read_out_of_turn, read_step, says_hello, skips_rest
from bot.voice.replies import Greeting, JobsKept, Refusal, Reply, Together
from storage.desk import Desk
from storage.records import Author, Category, Job, JobRate, PayPeriod, Section, Step

WORK = "work"


def greet(desk: Desk) -> Reply:
    """Starts the first conversation, or takes it up where it stands; from the beginning once it is over."""
    if desk.person.step in (Step.NEW, Step.DONE):
        desk.people.change(replace(desk.person, step=Step.PLACE))
    return greeting_now(desk)


def greeting_now(desk: Desk) -> Greeting:
    """The question of the step the person is at."""
    categories = tuple(category.name for category in desk.categories.all())
    jobs = tuple(category_name(desk, job.category_id) or "" for job in desk.jobs.all())
    return Greeting(desk.person, categories, jobs)


def to_step(desk: Desk, value: str) -> Reply:
    """Goes on to the step that a button names."""
    desk.people.change(replace(desk.person, step=Step(value)))
    return greeting_now(desk)


def settle(desk: Desk, sections: Sequence[str], categories: Sequence[Category], jobs: Sequence[tuple[str, Job, Sequence[JobRate]]]) -> None:
    """Gives a newcomer what they start with, and plans their rounds. ``jobs`` come with their category's name and their rates."""
    for name in sections:
        desk.sections.add(Section(0, name))
    ids = {category.name: desk.categories.add(category).id for category in categories}
    for name, job, rates in jobs:
        kept = desk.jobs.add(replace(job, category_id=ids[name]))
        for rate in rates:
            desk.job_rates.add(replace(rate, job_id=kept.id))
    plan_rounds(desk)
    if any(job.remind for job in desk.jobs.all()):
        plan_paydays(desk)
    desk.journal.write("Welcome", None, by=Author.ROUND)


def answer(desk: Desk, text: str) -> Reply | None:
    """Takes ``text`` as the answer to the step's question, or to another one that it plainly answers; None when it looks like neither."""
    if keeps_default(text):
        return _next(desk)
    step = desk.person.step
    found, early = read_step(step, text), read_out_of_turn(step, text)
    try:
        if found is not None:
            return ANSWERS[step](desk, found)
        return None if early is None else ask_again(desk, Together(_kept(desk, early)))
    except Stopped as stopped:
        return ask_again(desk, stopped.reply)


def ask_again(desk: Desk, reply: Reply) -> Reply:
    """``reply``, which settled nothing, and the step's question once more, so that the next answer is one to it."""
    return Together((reply, replace(greeting_now(desk), again=True)))


def begun_or_ended(desk: Desk, text: str) -> Reply | None:
    """What a greeting as the first word begins, and what leaves all the questions that are left; None for any other text."""
    step = desk.person.step
    if step is Step.NEW and says_hello(text):
        return greet(desk)
    return to_step(desk, Step.DONE.value) if step not in (Step.NEW, Step.DONE) and skips_rest(text) else None


def on_from_order(desk: Desk, said: Show | Set, reply: Reply) -> Reply:
    """``reply`` to what was asked for instead of an answer, and the question once more, or the next where a setting was the answer."""
    if isinstance(said, Set) and said.name == SETTLES.get(desk.person.step) and not isinstance(reply, Refusal):
        return reply if said.name == "place" else Together((reply, _next(desk)))
    return ask_again(desk, reply)


def on_from_place(desk: Desk, kept: Reply) -> Reply:
    """``kept``, followed by the next question when the first conversation was waiting for a place."""
    return Together((kept, _next(desk))) if desk.person.step is Step.PLACE else kept


def _next(desk: Desk) -> Greeting:
    steps = list(Step)
    desk.people.change(replace(desk.person, step=steps[steps.index(desk.person.step) + 1]))
    return greeting_now(desk)


def _answer_settings(desk: Desk, found: StepReply) -> Reply:
    return Together((*_kept(desk, found), _next(desk)))


def _kept(desk: Desk, found: StepReply) -> tuple[Reply, ...]:
    """Keeps the settings told, each with its reply."""
    return tuple(keep_zone_alone(desk, value) if name == "zone" else keep_setting(desk, Set(name, value)) for name, value in found.settings)


def _answer_place(desk: Desk, found: StepReply) -> Reply:
    """The next question comes once the place is found; after a zone's name, at once."""
    ((name, _),) = found.settings
    (kept,) = _kept(desk, found)
    return Together((kept, _next(desk))) if name == "zone" else kept


def _answer_categories(desk: Desk, found: StepReply) -> Reply:
    return Together((name_categories(desk, found.names), _next(desk)))


def _answer_jobs(desk: Desk, found: StepReply) -> Reply:
    """The named categories become the jobs. Raises Stopped for a name that is no category, so that no word becomes a job by accident."""
    for name in found.names:
        category_named(desk, name)
    for job in desk.jobs.all():
        category = desk.categories.get(job.category_id)
        if category.id not in {category_named(desk, name).id for name in found.names}:
            remove_job(desk, job)
    paid = {job.category_id for job in desk.jobs.all()}
    for name in found.names:
        category = category_named(desk, name)
        if category.id not in paid:
            desk.jobs.add(Job(0, category.id, category.name, PayPeriod.WEEKLY))
            _sort_under_work(desk, category)
    return Together((JobsKept(tuple(category_name(desk, job.category_id) or "" for job in desk.jobs.all())), _next(desk)))


def _sort_under_work(desk: Desk, category: Category) -> None:
    """Paid work goes into the section of that name, where the person has one."""
    section = desk.sections.named(WORK)
    if section is not None:
        desk.categories.change(replace(category, section=section.name))


SETTLES = {Step.PLACE: "place", Step.WAKING: "waking"}
"""The setting that is the whole answer to a question. A place has to be found first; the next question comes then."""

ANSWERS = {
    Step.PLACE: _answer_place,
    Step.WAKING: _answer_settings,
    Step.CATEGORIES: _answer_categories,
    Step.JOBS: _answer_jobs,
    Step.TIMES: _answer_settings,
}
