"""One web service and all the ways it can fail; nothing is sent, what answers is a web of the test's own."""

from __future__ import annotations

import socket
import ssl
from http.client import BadStatusLine, RemoteDisconnected
from pathlib import Path

import pytest
import trustme

from bot.outside import web_service
from bot.outside.faults import Fault, NoAnswer
from bot.outside.trust import trusting
from bot.outside.web_service import Patience, WebService
from tests.outside.calendar_server import response, served
from tests.outside.web import Web

URL = "https://weather.example/v1/forecast"
QUESTION = {"latitude": "51.05"}


class Waits:
    """Sleeps at once and remembers for how long it should have been."""

    def __init__(self) -> None:
        self.seconds: list[float] = []

    def __call__(self, seconds: float) -> None:
        self.seconds.append(seconds)


def failing(waits: Waits | None = None, patience: Patience | None = None) -> NoAnswer:
    """What asking fails with."""
    with pytest.raises(NoAnswer) as caught:
        WebService(URL, patience or Patience(), waits or Waits()).ask(QUESTION)
    return caught.value


def test_the_answer_is_the_text_and_the_question_goes_along(web: Web) -> None:
    web.get(URL, body='{"höhe": 7}')
    assert WebService(URL).ask(QUESTION) == '{"höhe": 7}'
    assert web.question() == QUESTION
    assert WebService(f"{URL}?key=7").ask(QUESTION) == '{"höhe": 7}'
    assert web.asked[1].full_url == f"{URL}?key=7&latitude=51.05"


def test_a_refusal_gives_the_services_reason_and_is_not_asked_again(web: Web) -> None:
    web.get(URL, status=400, json={"error": True, "reason": "Latitude must be in range of -90 to 90°. Given: 91.0."})
    error = failing()
    assert (error.fault, error.passing) == (Fault.REFUSED, False)
    assert error.detail == "400 Latitude must be in range of -90 to 90°. Given: 91.0."
    assert len(web.asked) == 1


@pytest.mark.parametrize(("status", "fault"), [(429, Fault.TOO_MANY_REQUESTS), (500, Fault.SERVER_ERROR), (503, Fault.SERVER_ERROR)])
def test_a_passing_fault_is_asked_three_times_with_pauses_that_double(status: int, fault: Fault, web: Web) -> None:
    web.get(URL, status=status, body="<html>busy</html>")
    waits = Waits()
    error = failing(waits)
    assert (error.fault, error.passing) == (fault, True)
    assert waits.seconds == [0.5, 1.0]
    assert len(web.asked) == 3


def test_an_answer_after_a_fault_is_taken(web: Web) -> None:
    web.get(URL, status=503)
    web.get(URL, body="fine")
    assert WebService(URL, sleep=Waits()).ask(QUESTION) == "fine"


def test_a_short_wait_that_is_asked_for_is_kept(web: Web) -> None:
    web.get(URL, status=429, headers={"Retry-After": "3"})
    web.get(URL, body="fine")
    waits = Waits()
    assert WebService(URL, sleep=waits).ask(QUESTION) == "fine"
    assert waits.seconds == [3.0]


def test_a_long_wait_that_is_asked_for_is_left_to_the_caller(web: Web) -> None:
    web.get(URL, status=429, headers={"Retry-After": "3600"})
    error = failing()
    assert error.seconds == 3600
    assert len(web.asked) == 1


@pytest.mark.parametrize("header", ["Wed, 21 Oct 2026 07:28:00 GMT", "-1", "nan", "9" * 30, ""])
def test_a_wait_that_is_no_number_of_seconds_is_not_believed(header: str, web: Web) -> None:
    web.get(URL, status=503, headers={"Retry-After": header})
    assert failing().seconds is None


@pytest.mark.parametrize(
    ("trouble", "fault", "kind"),
    [
        (TimeoutError("slow"), Fault.TIMED_OUT, "TimeoutError"),
        (ConnectionRefusedError("no route"), Fault.NOT_REACHED, "ConnectionRefusedError"),
        (socket.gaierror("no such name"), Fault.NOT_REACHED, "gaierror"),
        (RemoteDisconnected("cut off"), Fault.NOT_REACHED, "RemoteDisconnected"),
        (BadStatusLine("SSH-2.0"), Fault.NOT_REACHED, "BadStatusLine"),
    ],
)
def test_a_network_that_fails_is_asked_again_and_the_cause_is_kept(trouble: Exception, fault: Fault, kind: str, web: Web) -> None:
    web.get(URL, body=trouble)
    error = failing()
    assert (error.fault, error.detail) == (fault, kind)
    assert trouble in (error.__cause__, getattr(error.__cause__, "reason", None))
    assert len(web.asked) == 3


def test_an_answer_that_is_cut_off_is_none(web: Web) -> None:
    web.get(URL, body='{"half": ', headers={"Content-Length": "100"})
    error = failing()
    assert (error.fault, error.passing) == (Fault.NOT_REACHED, True)


def test_an_answer_elsewhere_is_fetched_there_but_never_from_a_file(web: Web) -> None:
    web.get(URL, status=302, headers={"Location": "https://other.example/v1"})
    web.get("https://other.example/v1", body="fine")
    assert WebService(URL).ask(QUESTION) == "fine"
    web.get("https://bad.example/", status=302, headers={"Location": "file:///etc/hostname"})
    with pytest.raises(NoAnswer) as caught:
        WebService("https://bad.example/", sleep=Waits()).ask(QUESTION)
    assert caught.value.fault is Fault.REFUSED


def test_an_answer_that_is_always_elsewhere_is_given_up(web: Web) -> None:
    web.get(URL, status=302, headers={"Location": URL})
    assert failing().fault is Fault.REFUSED
    assert len(web.asked) < 20


def test_an_oversized_answer_is_given_up_early(web: Web) -> None:
    web.get(URL, body=b"x" * 200_000)
    error = failing(patience=Patience(most_bytes=100_000))
    assert (error.fault, error.passing) == (Fault.TOO_LARGE, False)


def test_an_answer_that_trickles_in_for_ever_is_given_up(web: Web) -> None:
    web.get(URL, body=b"x" * 100_000)
    moments = iter(range(0, 1000, 6))
    service = WebService(URL, Patience(tries=1, whole_seconds=20), clock=lambda: float(next(moments)))
    with pytest.raises(NoAnswer) as caught:
        service.ask(QUESTION)
    assert caught.value.fault is Fault.TIMED_OUT


def test_bytes_that_are_no_text_are_not_understood(web: Web) -> None:
    web.get(URL, body=b"\xff\xfe\x00")
    assert failing().fault is Fault.NOT_UNDERSTOOD


@pytest.mark.parametrize("is_trusted", [True, False])
def test_a_certificate_must_be_vouched_for(is_trusted: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Over a real connection to a service on this machine."""
    authority, known = trustme.CA(), tmp_path / "authority.pem"
    tls = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    authority.issue_cert("localhost").configure_cert(tls)
    authority.cert_pem.write_to_path(str(known))
    if is_trusted:
        monkeypatch.setattr(web_service, "trusting", lambda: trusting(str(known)))
    with served({"/v1?latitude=51.05": response(b"fine")}, tls) as server:
        service = WebService(f"https://localhost:{server.port}/v1", Patience(tries=1))
        if is_trusted:
            assert service.ask(QUESTION) == "fine"
        else:
            with pytest.raises(NoAnswer) as caught:
                service.ask(QUESTION)
            assert (caught.value.fault, caught.value.detail) == (Fault.NOT_REACHED, "SSLCertVerificationError")
