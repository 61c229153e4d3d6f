"""What tests of the outside share: a web of their own."""

from __future__ import annotations

import pytest

from tests.outside.web import Web, put


@pytest.fixture
def web(monkeypatch: pytest.MonkeyPatch) -> Web:
    """Nothing is there but what the test puts there."""
    web = Web()
    put(web, monkeypatch)
    return web
