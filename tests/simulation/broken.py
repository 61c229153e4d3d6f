"""Five ways to break the program on purpose. Each lasts as long as the block, for one life."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import replace
from unittest.mock import patch

from bot.actions import hours
from bot.channels.carrying import CarryLater
from bot.rounds.postman import Postman
from bot.rules.local_time import instant_of
from storage.handled import Handled
from storage.outbox import Outbox
from storage.records import Carried, Parcel, ParcelState
from storage.rounds import Rounds
from tests.simulation.chat_service import Accepted
from tests.simulation.life import Life

Break = Callable[[Life], AbstractContextManager[object]]


def forgets_what_it_handled(_life: Life) -> AbstractContextManager[object]:
    """The update's id is not noted with its effects."""
    return patch.object(Handled, "first_time", lambda _self, _key: True)


@contextmanager
def sends_before_it_keeps(life: Life) -> Iterator[None]:
    """A message goes out as soon as it is owed, before the transaction that it tells of is kept."""
    owe = Outbox.owe

    def owe_and_send(self: Outbox, parcel: Parcel) -> Parcel:
        owed = owe(self, parcel)
        message = Accepted(int(owed.address.partition(":")[2]), life.service.new_message_id(), owed.text, (), told=True)
        life.service.take(message, is_new=True)
        return self.change(replace(owed, state=ParcelState.SENT, carried_as=str(message.message_id)))

    with patch.object(Outbox, "owe", owe_and_send):
        yield


def claims_without_a_row(_life: Life) -> AbstractContextManager[object]:
    """A round is taken without a mark on its row that it was."""
    return patch.object(Rounds, "claim_as_it_was", lambda _self, _read: True)


def drops_a_retry(_life: Life) -> AbstractContextManager[object]:
    """What the chat service did not take counts as sent."""

    def put_off(_self: Postman, parcel: Parcel, _error: CarryLater) -> Carried:
        return Carried(parcel.id, "1")

    return patch.object(Postman, "_put_off", put_off)


def ignores_fold(_life: Life) -> AbstractContextManager[object]:
    """Of an hour that comes twice, the clock knows only the first."""
    return patch.object(hours, "instant_shown", instant_of)


WAYS: tuple[Break, ...] = (forgets_what_it_handled, sends_before_it_keeps, claims_without_a_row, drops_a_retry, ignores_fold)
