"""Questions to a web service, with time-outs and a size limit, asked again where that may help."""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bot.outside.faults import Fault, NoAnswer

if TYPE_CHECKING:
    from requests import Response

CHUNK_BYTES = 16 * 1024
HEADERS = {"User-Agent": "weekwright", "Accept": "application/json"}


@dataclass(frozen=True, slots=True)
class Patience:
    """How long to wait for an answer, in seconds; how often to ask; how much to read, in bytes."""

    connect_seconds: float = 5
    read_seconds: float = 10
    whole_seconds: float = 20
    tries: int = 3
    first_pause_seconds: float = 0.5
    longest_pause_seconds: float = 5
    most_bytes: int = 2 * 1024 * 1024

    def pauses(self) -> Iterator[float]:
        """The seconds to wait after each try but the last; each is twice the one before."""
        return (self.first_pause_seconds * 2**number for number in range(self.tries - 1))


PATIENCE = Patience()


class WebService:
    """One address that answers questions with text. Blocks: ask it in a thread."""

    def __init__(
        self,
        url: str,
        patience: Patience = PATIENCE,
        sleep: Callable[[float], None] = time.sleep,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._url = url
        self._patience = patience
        self._sleep = sleep
        self._clock = clock

    def ask(self, question: Mapping[str, str]) -> str:
        """What the service answers to the query ``question``.

        Raises NoAnswer, whose ``detail`` is the reason that the service gave.
        """
        for pause in self._patience.pauses():
            try:
                return self._ask_once(question)
            except NoAnswer as error:
                wait = max(pause, error.seconds or 0)
                if not error.passing or wait > self._patience.longest_pause_seconds:
                    raise
                self._sleep(wait)
        return self._ask_once(question)

    def _ask_once(self, question: Mapping[str, str]) -> str:
        # Loading requests takes a tenth of a second that a start without weather need not wait for.
        import requests

        time_outs = (self._patience.connect_seconds, self._patience.read_seconds)
        try:
            with requests.get(self._url, params=question, headers=HEADERS, timeout=time_outs, stream=True) as response:
                return _checked(response, self._read(response))
        except requests.Timeout as error:
            raise NoAnswer(Fault.TIMED_OUT) from error
        except requests.RequestException as error:
            raise NoAnswer(Fault.NOT_REACHED, type(error).__name__) from error

    def _read(self, response: Response) -> bytes:
        give_up_at = self._clock() + self._patience.whole_seconds
        content = bytearray()
        for chunk in response.iter_content(CHUNK_BYTES):
            content += chunk
            if len(content) > self._patience.most_bytes:
                raise NoAnswer(Fault.TOO_LARGE)
            if self._clock() > give_up_at:
                raise NoAnswer(Fault.TIMED_OUT)
        return bytes(content)


def _checked(response: Response, content: bytes) -> str:
    status = response.status_code
    if status == 429:
        raise NoAnswer(Fault.TOO_MANY_REQUESTS, _reason(content), _seconds(response.headers.get("Retry-After", "")))
    if status >= 500:
        raise NoAnswer(Fault.SERVER_ERROR, f"{status} {_reason(content)}".strip(), _seconds(response.headers.get("Retry-After", "")))
    if status != 200:
        raise NoAnswer(Fault.REFUSED, f"{status} {_reason(content)}".strip())
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise NoAnswer(Fault.NOT_UNDERSTOOD, "not UTF-8") from error


def _reason(content: bytes) -> str:
    """Open-Meteo explains itself as {"error": true, "reason": …}; a proxy in between need not."""
    try:
        answer = json.loads(content)
    except ValueError:
        return ""
    reason = answer.get("reason") if isinstance(answer, dict) else None
    return reason[:200] if isinstance(reason, str) else ""


def _seconds(header: str) -> float | None:
    """The seconds of a Retry-After header; its other form, a date, is left aside (RFC 9110 section 10.2.3)."""
    return float(header) if header.isascii() and header.isdigit() and len(header) < 7 else None
