"""Commitments. Their rules are expanded elsewhere; here they are only found."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import bindparam

from storage.forms import COMMITMENTS
from storage.records import Commitment
from storage.schema import commitments
from storage.shelf import Shelf

_BY_START = (commitments.c.starts,)
_SINGLES_BETWEEN = COMMITMENTS.mine(
    commitments.c.rule.is_(None),
    commitments.c.starts < bindparam("end"),
    commitments.c.ends > bindparam("start"),
    order=_BY_START,
)
_RECURRING = COMMITMENTS.mine(commitments.c.rule.is_not(None), order=_BY_START)


class Commitments(Shelf[Commitment]):
    """The person's commitments, cancelled ones among them, earliest first."""

    def singles_between(self, start: datetime, end: datetime) -> tuple[Commitment, ...]:
        """Those that do not recur and share a moment with [start, end)."""
        return self.many(_SINGLES_BETWEEN, start=start, end=end)

    def recurring(self, before: datetime) -> tuple[Commitment, ...]:
        """Those with a rule whose first occurrence starts before this instant."""
        return tuple(each for each in self.many(_RECURRING) if each.starts < before)
