"""A person's own categories in place of those the settings gave, one that is taken away, and one with another name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.actions.jobs import remove_job
from bot.actions.naming import category_named
from bot.actions.new_category import free_colour
from bot.actions.refused import refused
from bot.language.standing_meaning import DropCategory, RenameCategory
from bot.voice.replies import CategoriesKept, CategoryDropped, CategoryRenamed
from storage.desk import Desk
from storage.errors import NameTaken, StillUsed
from storage.records import Category


def name_categories(desk: Desk, names: Sequence[str]) -> CategoriesKept:
    """The named categories take the place of those that nothing uses; one of the same name stays as it is. Gives all there are."""
    said = {name.casefold() for name in names}
    for category in desk.categories.all():
        if category.name.casefold() not in said:
            _leaves_no_trace(desk, category)
    section = desk.sections.all()[0].name
    for name in names:
        known = desk.categories.named(name)
        if known is None:
            desk.categories.add(Category(0, name, section, colour=free_colour(desk)))
        elif known.name != name and known.name.casefold() == name.casefold():
            desk.categories.change(replace(known, name=name))
    named = [found.name for name in names if (found := desk.categories.named(name)) is not None]
    return CategoriesKept(tuple(dict.fromkeys((*named, *(category.name for category in desk.categories.all())))))


def drop_category(desk: Desk, said: DropCategory) -> CategoryDropped:
    """Takes a category away, with the job it was. Raises Stopped while hours, goals or plans name it."""
    category = category_named(desk, said.category)
    if not _leaves_no_trace(desk, category):
        raise refused("category used", category.name)
    return CategoryDropped(category.name)


def rename_category(desk: Desk, said: RenameCategory) -> CategoryRenamed:
    """Gives a category another name; the old one stays understood, and an employer that was called so follows. Raises Stopped."""
    category = category_named(desk, said.category)
    others = {alias.casefold(): alias for alias in (*category.aliases, category.name)}
    others.pop(said.name.casefold(), None)
    try:
        desk.categories.change(replace(category, name=said.name, aliases=tuple(others.values())))
    except NameTaken as taken:
        raise refused("name taken", taken.name) from taken
    job = desk.jobs.of_category(category.id)
    if job is not None and job.employer.casefold() == category.name.casefold():
        desk.jobs.change(replace(job, employer=said.name))
    return CategoryRenamed(category.name, said.name)


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
