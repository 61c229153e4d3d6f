"""One web service and all the ways it can fail; nothing is sent, the answers are made by ``responses``."""

from __future__ import annotations

import pytest
import requests
import responses

from bot.outside.faults import Fault, NoAnswer
from bot.outside.web_service import Patience, WebService

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


@responses.activate
def test_the_answer_is_the_text_and_the_question_goes_along() -> None:
    responses.get(URL, body='{"höhe": 7}', match=[responses.matchers.query_param_matcher(QUESTION)])
    assert WebService(URL).ask(QUESTION) == '{"höhe": 7}'


@responses.activate
def test_a_refusal_gives_the_services_reason_and_is_not_asked_again() -> None:
    responses.get(URL, status=400, json={"error": True, "reason": "Latitude must be in range of -90 to 90°. Given: 91.0."})
    error = failing()
    assert (error.fault, error.passing) == (Fault.REFUSED, False)
    assert error.detail == "400 Latitude must be in range of -90 to 90°. Given: 91.0."
    assert len(responses.calls) == 1


@responses.activate
@pytest.mark.parametrize(("status", "fault"), [(429, Fault.TOO_MANY_REQUESTS), (500, Fault.SERVER_ERROR), (503, Fault.SERVER_ERROR)])
def test_a_passing_fault_is_asked_three_times_with_pauses_that_double(status: int, fault: Fault) -> None:
    responses.get(URL, status=status, body="<html>busy</html>")
    waits = Waits()
    error = failing(waits)
    assert (error.fault, error.passing) == (fault, True)
    assert waits.seconds == [0.5, 1.0]
    assert len(responses.calls) == 3


@responses.activate
def test_an_answer_after_a_fault_is_taken() -> None:
    responses.get(URL, status=503)
    responses.get(URL, body="fine")
    assert WebService(URL, sleep=Waits()).ask(QUESTION) == "fine"


@responses.activate
def test_a_short_wait_that_is_asked_for_is_kept() -> None:
    responses.get(URL, status=429, headers={"Retry-After": "3"})
    responses.get(URL, body="fine")
    waits = Waits()
    assert WebService(URL, sleep=waits).ask(QUESTION) == "fine"
    assert waits.seconds == [3.0]


@responses.activate
def test_a_long_wait_that_is_asked_for_is_left_to_the_caller() -> None:
    responses.get(URL, status=429, headers={"Retry-After": "3600"})
    error = failing()
    assert error.seconds == 3600
    assert len(responses.calls) == 1


@responses.activate
@pytest.mark.parametrize("header", ["Wed, 21 Oct 2026 07:28:00 GMT", "-1", "nan", "9" * 30, ""])
def test_a_wait_that_is_no_number_of_seconds_is_not_believed(header: str) -> None:
    responses.get(URL, status=503, headers={"Retry-After": header})
    assert failing().seconds is None


@responses.activate
@pytest.mark.parametrize(
    ("trouble", "fault"),
    [
        (requests.ConnectTimeout("slow"), Fault.TIMED_OUT),
        (requests.ReadTimeout("slower"), Fault.TIMED_OUT),
        (requests.ConnectionError("no route"), Fault.NOT_REACHED),
        (requests.exceptions.ChunkedEncodingError("cut off"), Fault.NOT_REACHED),
        (requests.TooManyRedirects("round and round"), Fault.NOT_REACHED),
    ],
)
def test_a_network_that_fails_is_asked_again_and_the_cause_is_kept(trouble: Exception, fault: Fault) -> None:
    responses.get(URL, body=trouble)
    error = failing()
    assert error.fault is fault
    assert error.__cause__ is trouble
    assert len(responses.calls) == 3


@responses.activate
def test_an_oversized_answer_is_given_up_early() -> None:
    responses.get(URL, body=b"x" * 200_000)
    error = failing(patience=Patience(most_bytes=100_000))
    assert (error.fault, error.passing) == (Fault.TOO_LARGE, False)


@responses.activate
def test_an_answer_that_trickles_in_for_ever_is_given_up() -> None:
    responses.get(URL, body=b"x" * 100_000)
    moments = iter(range(0, 1000, 6))
    service = WebService(URL, Patience(tries=1, whole_seconds=20), clock=lambda: float(next(moments)))
    with pytest.raises(NoAnswer) as caught:
        service.ask(QUESTION)
    assert caught.value.fault is Fault.TIMED_OUT


@responses.activate
def test_bytes_that_are_no_text_are_not_understood() -> None:
    responses.get(URL, body=b"\xff\xfe\x00")
    assert failing().fault is Fault.NOT_UNDERSTOOD
