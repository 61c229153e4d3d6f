"""Categories and sections: what a person's hours and goals are told apart by."""

from __future__ import annotations

from storage.errors import NameTaken
from storage.records import Category, Section
from storage.shelf import Shelf


class Sections(Shelf[Section]):
    """The person's sections. Two names that differ in case only are the same name."""

    def named(self, name: str) -> Section | None:
        """The section of this name in any case, or None."""
        return next((each for each in self.all() if each.name.casefold() == name.casefold()), None)

    def add(self, record: Section) -> Section:
        """As on every shelf; raises NameTaken too."""
        self._demand_free(record)
        return super().add(record)

    def change(self, record: Section) -> Section:
        """As on every shelf; raises NameTaken too, and Refused for a new name while others name the old one."""
        self._demand_free(record)
        return super().change(record)

    def _demand_free(self, record: Section) -> None:
        taken = self.named(record.name)
        if taken is not None and taken.id != record.id:
            raise NameTaken(self.form.name, record.name, taken.id)


class Categories(Shelf[Category]):
    """The person's categories. No two answer to the same name or alias, in any case."""

    def named(self, name: str) -> Category | None:
        """The category that answers to this name or alias in any case, or None."""
        return next((each for each in self.all() if name.casefold() in _answers_to(each)), None)

    def add(self, record: Category) -> Category:
        """As on every shelf; raises NameTaken too."""
        self._demand_free(record)
        return super().add(record)

    def change(self, record: Category) -> Category:
        """As on every shelf; raises NameTaken too."""
        self._demand_free(record)
        return super().change(record)

    def _demand_free(self, record: Category) -> None:
        wanted = _answers_to(record)
        for other in self.all():
            if other.id != record.id and (taken := wanted & _answers_to(other)):
                raise NameTaken(self.form.name, min(taken), other.id)


def _answers_to(category: Category) -> frozenset[str]:
    return frozenset(name.casefold() for name in (category.name, *category.aliases))
