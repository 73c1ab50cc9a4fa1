"""The air in the tyre: what the weather and a pass do to its pressure."""

from .atmosphere import FREEZING, LAPSE, SEA_LEVEL, WARMTH, air_pressure
from .calculations import calculation
from .quantities import Quantity, number
from .working import Work, shown

TYRES = [
    "Never above the lower of the limits marked on tyre and rim; a hookless rim never above 5 bar.",
    "See that the bead sits evenly all round before and after; keep face and fingers away while it is filled.",
]

SOFT = 1.0
"""bar, below which a tyre is as good as flat under a rider: common practice."""


def _temperature(name: str, label: str) -> Quantity:
    return number(
        name,
        "°C",
        label,
        possible=(-60, 90),
        plausible=(-15, 50),
        step=1,
        digits=0,
        help="Of the tyre's air: an hour in the place makes it that of the place; sun and brakes add to it.",
    )


def _altitude(name: str, label: str) -> Quantity:
    return number(
        name,
        "m",
        label,
        default=0,
        possible=(-500, 9000),
        plausible=(-100, 4000),
        step=50,
        digits=0,
        help="Above the sea, as the map says.",
    )


@calculation(
    id="pressure-change",
    family="tyres",
    title="Pressure on the day",
    question="Pumped here, what will the gauge read in the cold or on the pass?",
    inputs=[
        number(
            "pressure",
            "bar",
            "Pressure now",
            possible=(0, 20),
            plausible=(1, 9),
            step=0.1,
            digits=1,
            help="By the gauge, with the tyre as warm as told below.",
        ),
        _temperature("temp_from", "Temperature here"),
        _temperature("temp_to", "Temperature there"),
        _altitude("altitude_from", "Altitude here"),
        _altitude("altitude_to", "Altitude there"),
        number(
            "limit",
            "bar",
            "Limit of tyre and rim",
            optional=True,
            possible=(0.5, 20),
            plausible=(2, 10),
            step=0.1,
            digits=1,
            help="The lower of the two markings; 5 bar at most on a hookless rim.",
        ),
    ],
    outputs=[
        number("pressure_new", "bar", "The gauge will read", digits=2),
        number("atmosphere_from", "bar", "Air outside, here", digits=3),
        number("atmosphere_to", "bar", "Air outside, there", digits=3),
        number("pressure_to_set", "bar", "To have the same there, set here", digits=2),
    ],
    cautions=TYRES,
    source="Air pressure by ISO 2533:1975, read at geopotential height; an ideal gas in a tyre that keeps its volume and "
    "its air (OpenStax University Physics 2, the ideal gas law; from memory).",
    example={"pressure": 3.2, "temp_from": 21, "temp_to": 4, "altitude_from": 300, "altitude_to": 2100, "limit": 4.5},
)
def pressure_change(
    work: Work,
    *,
    pressure: float,
    temp_from: float,
    temp_to: float,
    altitude_from: float,
    altitude_to: float,
    limit: "float | None",
) -> dict[str, object]:
    """Gauge pressure there, bar: (p + outside here) · T there / T here − outside there, temperatures in kelvin.

    Leaves out the little that a tyre grows (it lowers both changes by a few per cent of themselves) and what seeps out.
    """
    outside_from = _outside(work, "atmosphere_from", altitude_from)
    outside_to = _outside(work, "atmosphere_to", altitude_to)
    here, there = FREEZING + temp_from, FREEZING + temp_to
    new = (pressure + outside_from) * there / here - outside_to
    to_set = (pressure + outside_to) * here / there - outside_from
    told = {
        "pressure": pressure,
        "atmosphere_from": outside_from,
        "atmosphere_to": outside_to,
        "temp_from": temp_from,
        "temp_to": temp_to,
    }
    work.line(
        "pressure_new",
        "(pressure + atmosphere_from) × (temp_to + 273.15) / (temp_from + 273.15) − atmosphere_to",
        new,
        "bar",
        **told,
    )
    work.line(
        "pressure_to_set",
        "(pressure + atmosphere_to) × (temp_from + 273.15) / (temp_to + 273.15) − atmosphere_from",
        to_set,
        "bar",
        **told,
    )
    if limit is None:
        work.care("limit", "The limit of tyre and rim was not given, so it was not checked.")
    elif max(pressure, new) > limit + 1e-9:
        where = "there" if new > pressure else "already here"
        work.stop(
            "limit",
            shown(max(pressure, new), 2) + " bar " + where + " is above the limit of " + shown(limit, 2) + " bar: let air out.",
        )
    elif to_set > limit + 1e-9:
        work.stop(
            "limit",
            "Do not set " + shown(to_set, 2) + " bar here: the limit is " + shown(limit, 2) + " bar. Pump again there.",
        )
    if new < SOFT <= pressure:
        work.care("pressure", "Only " + shown(new, 2) + " bar is left there: pump before riding on.")
    return {
        "pressure_new": new,
        "atmosphere_from": outside_from,
        "atmosphere_to": outside_to,
        "pressure_to_set": to_set,
    }


def _outside(work: Work, symbol: str, altitude: float) -> float:
    outside = air_pressure(altitude)
    work.line(
        symbol,
        "sea_level × (1 − lapse × altitude / warmth)^(9.80665 / (287.05287 × lapse))",
        outside,
        "bar",
        sea_level=SEA_LEVEL,
        lapse=LAPSE,
        altitude=altitude,
        warmth=WARMTH,
    )
    return outside
