"""A person's own categories in place of those the settings gave, and one that is taken away."""

from __future__ import annotations

from collections.abc import Sequence

from bot.actions.jobs import remove_job
from bot.actions.naming import category_named
from bot.actions.new_category import free_colour
from bot.actions.refused import refused
from bot.language.standing_meaning import DropCategory
from bot.voice.replies import CategoriesKept, CategoryDropped
from storage.desk import Desk
from storage.errors import StillUsed
from storage.records import Category


def name_categories(desk: Desk, names: Sequence[str]) -> CategoriesKept:
    """The named categories take the place of those that nothing uses; one of the same name stays as it is. Gives all there are."""
    said = {name.casefold() for name in names}
    for category in desk.categories.all():
        if category.name.casefold() not in said:
            _leaves_no_trace(desk, category)
    section = desk.sections.all()[0].name
    for name in names:
        if desk.categories.named(name) is None:
            desk.categories.add(Category(0, name, section, colour=free_colour(desk)))
    named = [found.name for name in names if (found := desk.categories.named(name)) is not None]
    return CategoriesKept(tuple(dict.fromkeys((*named, *(category.name for category in desk.categories.all())))))


def drop_category(desk: Desk, said: DropCategory) -> CategoryDropped:
    """Takes a category away, with the job it was. Raises Stopped while hours, goals or plans name it."""
    category = category_named(desk, said.category)
    if not _leaves_no_trace(desk, category):
        raise refused("category used", category.name)
    return CategoryDropped(category.name)


def _leaves_no_trace(desk: Desk, category: Category) -> bool:
    """Removes a category and its job, unless anything else names it; whether that was possible."""
    try:
        with desk.attempt():
            job = desk.jobs.of_category(category.id)
            if job is not None:
                remove_job(desk, job)
            desk.categories.remove(category.id)
    except StillUsed:
        return False
    return True
