"""How weather feels: the heat by the humidity, the cold by the wind.

Temperatures are in degrees Celsius, humidity in percent, wind in km/h.
"""

from __future__ import annotations

from bot.rules.weather_units import celsius, fahrenheit


def heat_index(temperature: float, humidity: float) -> float:
    """The temperature felt in the shade and light wind, in degrees Celsius.

    Source: NWS, "The heat index equation": Rothfusz's regression of 1990
    with both adjustments, and the simple formula below 80 degrees Fahrenheit.
    """
    air = fahrenheit(temperature)
    simple = 0.5 * (air + 61.0 + (air - 68.0) * 1.2 + humidity * 0.094)
    if (simple + air) / 2 < 80:
        return celsius(simple)
    return celsius(_rothfusz(air, humidity) + _adjustment(air, humidity))


def wind_chill(temperature: float, wind: float) -> float | None:
    """The temperature felt in the wind, in degrees Celsius; None above 10 degrees or up to 4.8 km/h, where it is not defined.

    Source: Environment Canada and NWS, wind chill index of 2001.
    """
    if temperature > 10 or wind <= 4.8:
        return None
    chill: float = wind**0.16
    return 13.12 + 0.6215 * temperature - 11.37 * chill + 0.3965 * temperature * chill


def _rothfusz(air: float, humidity: float) -> float:
    return (
        -42.379
        + 2.04901523 * air
        + 10.14333127 * humidity
        - 0.22475541 * air * humidity
        - 0.00683783 * air**2
        - 0.05481717 * humidity**2
        + 0.00122874 * air**2 * humidity
        + 0.00085282 * air * humidity**2
        - 0.00000199 * air**2 * humidity**2
    )


def _adjustment(air: float, humidity: float) -> float:
    """What very dry air takes off, and very damp air adds."""
    if humidity < 13 and 80 <= air <= 112:
        return float(-(13 - humidity) / 4 * ((17 - abs(air - 95)) / 17) ** 0.5)
    if humidity > 85 and 80 <= air <= 87:
        return (humidity - 85) / 10 * (87 - air) / 5
    return 0.0
