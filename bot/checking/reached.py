"""What has to be reached from here: Telegram with the token, the forecast service and the one that knows places."""

from __future__ import annotations

from collections.abc import Iterator

from bot.channels.telegram_identity import who_am_i
from bot.checking.finding import Finding
from bot.outside.faults import Fault, OutsideError
from bot.outside.forecast import OpenMeteo, with_path
from bot.outside.geocoding import OpenMeteoGeocoding
from bot.outside.web_service import Patience, WebService
from bot.settings import Settings

PATIENCE = Patience(connect_seconds=3, read_seconds=5, whole_seconds=8, tries=1)
ANYWHERE = "Ghent"


def telegram_findings(settings: Settings) -> Iterator[Finding]:
    """Whether Telegram answers and knows the token, which is not shown."""
    if settings.telegram.token is None:
        yield Finding("Token: none, so only chat and rehearse work.")
        return
    try:
        name = who_am_i(settings.telegram.url, settings.telegram.token, PATIENCE)
    except OutsideError as error:
        if error.fault is Fault.REFUSED:
            yield Finding("Token: Telegram does not know it; @BotFather shows the right one.", at_fault=True)
        else:
            yield Finding(f"Telegram: no answer ({error.fault}).", at_fault=True)
    else:
        yield Finding(f"Token: Telegram knows it as @{name}.")


def service_findings(settings: Settings) -> Iterator[Finding]:
    """Whether Open-Meteo's two services answer. The forecast asked for is that of nobody's place: 0 degrees north and east."""
    outside = settings.outside
    forecast = OpenMeteo(web=WebService(with_path(outside.forecast_url, "/v1/forecast"), PATIENCE))
    places = OpenMeteoGeocoding(web=WebService(with_path(outside.geocoding_url, "/v1/search"), PATIENCE))
    for name, ask in (("Forecast service", lambda: forecast.fetch(0.0, 0.0)), ("Place service", lambda: places.find(ANYWHERE))):
        try:
            ask()
        except OutsideError as error:
            yield Finding(f"{name}: no answer ({error.fault}).", at_fault=True)
        else:
            yield Finding(f"{name}: answers.")
