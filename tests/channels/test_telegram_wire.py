"""The wire to the Bot API, against a server on loopback that says exactly what a test gives it to say."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from email import message_from_bytes
from email.policy import HTTP

import pytest
from telegram import Bot, InputFile
from telegram.error import NetworkError, TelegramError, TimedOut
from telegram.request import RequestData
from telegram.request._requestparameter import RequestParameter

from bot.channels import telegram_wire
from bot.channels.telegram_carrier import carry_error
from bot.channels.telegram_wire import NotReachedError, Wire

FINE = b"HTTP/1.1 200 OK\r\nContent-Length: 2\r\n\r\n{}"
CLOSED_PORT = "http://127.0.0.1:9/"


class Server:
    """Answers each request on each connection with the next of its answers; an empty one closes the connection."""

    def __init__(self, answers: Sequence[bytes]) -> None:
        self.answers = list(answers)
        self.requests: list[bytes] = []
        self.connections = 0

    async def __call__(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self.connections += 1
        while self.answers and (head := await self._request(reader)):
            self.requests.append(head)
            answer = self.answers.pop(0)
            writer.write(answer)
            if b"hang" in answer:
                await reader.read()
            if not answer or b"close" in answer or b"until the end" in answer:
                break
        writer.close()

    async def _request(self, reader: asyncio.StreamReader) -> bytes:
        try:
            head = await reader.readuntil(b"\r\n\r\n")
        except asyncio.IncompleteReadError:
            return b""
        length = int(head.partition(b"Content-Length: ")[2].partition(b"\r\n")[0])
        return head + await reader.readexactly(length)


Story = Callable[[Wire, str], Awaitable[None]]


def play(story: Story, *answers: bytes, read_seconds: float = 5.0) -> Server:
    """Plays the story against a server with these answers."""
    told = Server(answers)

    async def live() -> None:
        wire = Wire(1.0, read_seconds)
        async with await asyncio.start_server(told, "127.0.0.1", 0) as server:
            port = server.sockets[0].getsockname()[1]
            await story(wire, f"http://127.0.0.1:{port}/bot1:token/sendMessage")
            await wire.shutdown()
            # The server sees its connections end.
            await asyncio.sleep(0.02)

    asyncio.run(live())
    return told


def contents(*answers: bytes) -> list[tuple[int, bytes]]:
    """Status and content of each answer, asked for one after another."""
    got: list[tuple[int, bytes]] = []

    async def story(wire: Wire, url: str) -> None:
        got.extend([await wire.do_request(url, "POST") for _ in answers])

    play(story, *answers)
    return got


def failure(*answers: bytes, read_seconds: float = 5.0) -> TelegramError:
    """How the only call fails."""
    failures: list[TelegramError] = []

    async def story(wire: Wire, url: str) -> None:
        with pytest.raises(NetworkError) as raised:
            await wire.do_request(url, "POST")
        failures.append(raised.value)

    play(story, *answers, read_seconds=read_seconds)
    return failures[0]


def test_an_answer_is_read_however_its_end_is_told() -> None:
    chunked = b"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n3;x=y\r\nabc\r\nA\r\n0123456789\r\n0\r\nTrailer: t\r\n\r\n"
    assert contents(
        FINE,
        chunked,
        b"HTTP/1.1 100 Continue\r\n\r\nHTTP/1.1 403 Forbidden\r\ncontent-length: 4\r\n\r\nbody",
        b"HTTP/1.1 204 No Content\r\n\r\n",
        b"HTTP/1.0 502 Bad Gateway\r\n\r\nuntil the end",
    ) == [(200, b"{}"), (200, b"abc0123456789"), (403, b"body"), (204, b""), (502, b"until the end")]


def test_calls_follow_each_other_on_one_connection_until_the_server_closes_it() -> None:
    async def story(wire: Wire, url: str) -> None:
        for _ in range(3):
            await wire.do_request(url, "POST")
        await asyncio.sleep(0.01)
        await wire.do_request(url, "POST")

    told = play(story, FINE, FINE, b"HTTP/1.1 200 OK\r\nConnection: close\r\nContent-Length: 2\r\n\r\n{}", FINE)
    assert (len(told.requests), told.connections) == (4, 2)


def test_what_comes_behind_an_answer_is_never_the_next_ones() -> None:
    got: list[tuple[int, bytes]] = []

    async def story(wire: Wire, url: str) -> None:
        got.extend([await wire.do_request(url, "POST") for _ in range(2)])

    stray = b"HTTP/1.1 200 OK\r\nContent-Length: 5\r\n\r\nstray"
    assert play(story, FINE + stray, FINE).connections == 2
    assert got == [(200, b"{}"), (200, b"{}")]


def test_an_answer_without_end_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(telegram_wire, "MOST_CONTENT_BYTES", 100_000)
    head = b"HTTP/1.1 200 OK\r\nContent-Length: 900000\r\n\r\n"
    assert "RemoteProtocolError" in str(failure(head + b"x" * 900_000))


@pytest.mark.parametrize("token", ["two words", "ü"])
def test_a_token_that_no_address_can_hold_is_never_told(token: str) -> None:
    async def story(wire: Wire, url: str) -> None:
        with pytest.raises(NetworkError) as raised:
            await wire.do_request(url.replace("token", token), "POST")
        assert token not in str(raised.value)

    assert play(story, FINE).requests == []


def test_calls_at_the_same_time_have_a_connection_each() -> None:
    async def story(wire: Wire, url: str) -> None:
        await asyncio.gather(*(wire.do_request(url, "POST") for _ in range(3)))

    assert play(story, FINE, FINE, FINE).connections == 3


def test_a_call_carries_its_parameters_as_a_form() -> None:
    async def story(wire: Wire, url: str) -> None:
        bot = Bot("1:token", url.partition("1:token")[0], request=wire, get_updates_request=wire)
        assert await bot.do_api_request("SendMessage", {"chat_id": 99, "text": "3 h & more, é"}) == "sent"

    (request,) = play(story, b'HTTP/1.1 200 OK\r\nContent-Length: 27\r\n\r\n{"ok":true,"result":"sent"}').requests
    assert request.startswith(b"POST /bot1:token/SendMessage HTTP/1.1\r\nHost: 127.0.0.1:")
    assert request.endswith(b"\r\n\r\nchat_id=99&text=3+h+%26+more%2C+%C3%A9")


def test_a_call_with_a_file_carries_it_among_its_parameters_as_a_form_in_parts() -> None:
    drawn = bytes(range(256)) * 400

    async def story(wire: Wire, url: str) -> None:
        bot = Bot("1:token", url.partition("1:token")[0], request=wire, get_updates_request=wire)
        assert await bot.do_api_request("SendDocument", {"chat_id": 99, "caption": "3 h & é", "document": InputFile(drawn, 'a "week".png')})

    (request,) = play(story, b'HTTP/1.1 200 OK\r\nContent-Length: 25\r\n\r\n{"ok":true,"result":true}').requests
    head, _, body = request.partition(b"\r\n\r\n")
    assert head.startswith(b"POST /bot1:token/SendDocument HTTP/1.1\r\n")
    # Python's own reader of messages in parts (RFC 2046), beside what writes them.
    (kind,) = (line for line in head.split(b"\r\n") if line.startswith(b"Content-Type: "))
    parts = message_from_bytes(kind + b"\r\n\r\n" + body, policy=HTTP).iter_parts()
    told = {part.get_param("name", header="content-disposition"): part for part in parts}
    assert {name: part.get_payload(decode=True) for name, part in told.items()} == {
        "chat_id": b"99",
        "caption": "3 h & é".encode(),
        "document": drawn,
    }
    assert told["document"].get_content_type() == "image/png"


def test_a_long_call_may_take_longer_than_a_short_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """The answer never comes; the limit is the answer's own and what the content takes on the slowest line."""
    monkeypatch.setattr(telegram_wire, "SLOWEST_BYTES_A_SECOND", 1_000_000)
    waited: list[float] = []

    async def story(wire: Wire, url: str) -> None:
        for size in (0, 300_000):
            began = asyncio.get_running_loop().time()
            with pytest.raises(TimedOut):
                await wire.do_request(url, "POST", RequestData([RequestParameter.from_input("document", InputFile(b"x" * size))]))
            waited.append(asyncio.get_running_loop().time() - began)

    play(story, b"HTTP/1.1 200 OK\r\nX: hang", b"HTTP/1.1 200 OK\r\nX: hang", read_seconds=0.05)
    assert waited[1] - waited[0] > 0.2


@pytest.mark.parametrize(
    "answer",
    [
        b"",
        b"SSH-2.0-OpenSSH\r\n\r\n close",
        b"HTTP/1.1 oops\r\n\r\n close",
        b"HTTP/1.1 200 OK\r\nContent-Length: -3\r\n\r\n close",
        b"HTTP/1.1 200 OK\r\nContent-Length: 50\r\n\r\ntoo little, close",
        b"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n close",
        b"HTTP/1.1 200 OK\r\nX: " + b"x" * 70_000 + b"\r\n\r\n close",
    ],
)
def test_what_is_no_answer_fails_and_may_have_been_carried_all_the_same(answer: bytes) -> None:
    error = failure(answer)
    assert "token" not in str(error)
    assert carry_error(error).perhaps_carried  # type: ignore[attr-defined]


def test_no_answer_in_time_is_a_time_out() -> None:
    assert isinstance(failure(b"HTTP/1.1 200 OK\r\nX: hang", read_seconds=0.05), TimedOut)


def test_where_nobody_listens_surely_nothing_was_carried() -> None:
    async def story() -> None:
        await Wire(1.0, 1.0).do_request(CLOSED_PORT, "POST")

    with pytest.raises(NetworkError) as raised:
        asyncio.run(story())
    assert isinstance(raised.value.__cause__, NotReachedError)
    assert not carry_error(raised.value).perhaps_carried  # type: ignore[attr-defined]
