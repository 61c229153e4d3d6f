"""A small HTTP server in the same loop as all else, for what calls us: Telegram's webhook, and who asks after our health."""

from __future__ import annotations

import logging
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from typing import Any

from tornado.httpserver import HTTPServer
from tornado.web import Application, RequestHandler

from bot.settings_run import Address

Route = tuple[str, type[RequestHandler], dict[str, Any]]

SECONDS_TO_SEND_A_BODY = 10.0


@asynccontextmanager
async def served(address: Address, routes: Sequence[Route], largest_body: int = 0) -> AsyncIterator[None]:
    """Answers at ``address`` while the block runs; a body over ``largest_body`` bytes is refused.

    Raises OSError that names the address when it is taken or is none of this machine.
    """
    # What each caller asks for is no event of ours, and a path may hold what should not be in a log.
    logging.getLogger("tornado").setLevel(logging.ERROR)
    # It calls each answer of 500 and more an error; a failure of ours is told apart from that, with its traceback.
    logging.getLogger("tornado.access").setLevel(logging.CRITICAL)
    server = HTTPServer(Application(list(routes)), max_body_size=largest_body, body_timeout=SECONDS_TO_SEND_A_BODY)
    try:
        server.listen(address.port, address.host)
    except OSError as error:
        raise OSError(f"I cannot listen at {address} ({error.strerror})") from error
    try:
        yield
    finally:
        server.stop()
        await server.close_all_connections()
