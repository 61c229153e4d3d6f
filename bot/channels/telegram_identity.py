"""Who the bot is to Telegram, asked once and without its library: https://core.telegram.org/bots/api#getme"""

from __future__ import annotations

import json

from bot.outside.faults import Fault, NoAnswer
from bot.outside.web_service import Patience, WebService


def who_am_i(url: str, token: str, patience: Patience) -> str:
    """The bot's user name. Blocks. Raises NoAnswer; REFUSED means that Telegram does not know the token."""
    answer = WebService(f"{url.rstrip('/')}/bot{token}/getMe", patience).ask({})
    try:
        name = json.loads(answer)["result"]["username"]
    except (ValueError, KeyError, TypeError) as malformed:
        raise NoAnswer(Fault.NOT_UNDERSTOOD) from malformed
    if not isinstance(name, str):
        raise NoAnswer(Fault.NOT_UNDERSTOOD)
    return name
