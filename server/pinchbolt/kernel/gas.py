"""Filling a tyre: what a CO2 cartridge gives, and how many strokes a pump takes."""

import math

from .atmosphere import FREEZING, SEA_LEVEL
from .calculations import calculation
from .errors import refuse
from .quantities import number
from .tyre_air import TYRES
from .tyres import NEAR, bead_seat, tyre_width
from .working import Work, shown

GAS = 0.0831446261815324
"""bar·l/(mol·K), exact since the SI of 2019."""

CO2 = 44.0095
"""g/mol, NIST Chemistry WebBook, from memory."""

A, B = 3.658, 0.0429
"""bar·l²/mol² and l/mol of CO2: van der Waals constants for gases, CRC Handbook of Chemistry and Physics."""

THICK = 18.0
"""bar as an ideal gas, below which van der Waals holds and CO2 stays a gas down to −20 °C."""


@calculation(
    id="inflate",
    family="tyres",
    title="Cartridge or pump",
    question="What pressure does this cartridge give, and how many strokes of the pump does it take?",
    inputs=[
        tyre_width(),
        bead_seat(),
        number(
            "temperature",
            "°C",
            "Temperature",
            default=20,
            possible=(-20, 60),
            plausible=(-5, 40),
            step=1,
            digits=0,
            help="Outside. The gas comes out far colder and reads low until it has warmed up.",
        ),
        number(
            "pressure_start",
            "bar",
            "Pressure before",
            default=0,
            possible=(0, 15),
            plausible=(0, 6),
            step=0.1,
            digits=1,
            help="By the gauge; 0 for a tyre that stands but is slack.",
        ),
        number(
            "cartridge",
            "g",
            "CO2 in the cartridge",
            optional=True,
            possible=(1, 100),
            plausible=(12, 38),
            step=1,
            digits=0,
            help="On the cartridge: the grams of gas, not the cartridge's own weight.",
        ),
        number(
            "stroke_volume",
            "ml",
            "Pump's stroke",
            optional=True,
            possible=(1, 2000),
            plausible=(20, 500),
            step=5,
            digits=0,
            help="Bore² × 0.785 × stroke, both in cm. A small hand pump has 20 to 60 ml, a floor pump 200 to 400.",
        ),
        number(
            "pressure_target",
            "bar",
            "Pressure wanted",
            optional=True,
            possible=(0.1, 15),
            plausible=(1, 9),
            step=0.1,
            digits=1,
            help="For the pump.",
        ),
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
        number("volume", "l", "Air room of the tyre", digits=2),
        number("pressure_after", "bar", "After the cartridge, warmed up", optional=True, digits=1),
        number("strokes", "", "Strokes of the pump", optional=True, digits=0),
    ],
    cautions=TYRES
    + [
        "CO2 comes out at the temperature of dry ice: gloves or the sleeve on the cartridge, never bare skin. Open it slowly.",
        "Wear eye protection while the beads seat. Some sealants do not go with CO2: their maker's word comes first.",
    ],
    source="A torus of the tyre's width: 2π²·Rm·(w/2)². CO2 by van der Waals with a = 3.658 bar·l²/mol², b = 0.0429 l/mol (CRC "
    "Handbook), added to the air inside (Dalton); below 10 bar within 2 % of the reference equation of state, in frost 3 %. "
    "Pump: air of 1.01325 bar at one temperature (Boyle), no losses.",
    example={
        "tyre_width": 32,
        "bead_seat": 622,
        "temperature": 18,
        "pressure_start": 0,
        "cartridge": 16,
        "stroke_volume": 40,
        "pressure_target": 3.5,
        "limit": 5,
    },
)
def inflate(
    work: Work,
    *,
    tyre_width: float,
    bead_seat: float,
    temperature: float,
    pressure_start: float,
    cartridge: "float | None",
    stroke_volume: "float | None",
    pressure_target: "float | None",
    limit: "float | None",
) -> dict[str, object]:
    """Volume in l, gauge pressure in bar after the whole cartridge at ambient temperature, strokes to the target.

    Raises InputError without cartridge and pump, for a pump without a target above the start, and for more CO2 than the
    equation holds for. A tyre thinner than its torus (rim well, tape, tube) has a few per cent less room.
    """
    if cartridge is None and stroke_volume is None:
        raise refuse("cartridge", "nothing", "the grams of CO2, or else stroke_volume of a pump")
    radius = (bead_seat + tyre_width) / 2
    volume = 2 * math.pi**2 * radius * (tyre_width / 2) ** 2 / 1e6
    work.line("radius", "(bead_seat + tyre_width) / 2", radius, "mm", bead_seat=bead_seat, tyre_width=tyre_width)
    work.line(
        "volume",
        "2 × π^2 × radius × (tyre_width / 2)^2 / 1000000",
        volume,
        "l",
        radius=radius,
        tyre_width=tyre_width,
    )
    after: "float | None" = None
    if cartridge is not None:
        after = _after(work, volume, temperature, pressure_start, cartridge)
        work.fine("cartridge", "Counted with the whole cartridge inside: what hisses past the valve is missing.")
        work.care("cartridge", "CO2 seeps through rubber within a day or two: let it out and fill with air.")
    strokes: "float | None" = None
    if stroke_volume is not None:
        if pressure_target is None or pressure_target <= pressure_start:
            given = "nothing" if pressure_target is None else shown(pressure_target)
            raise refuse("pressure_target", given, "for the pump, more than pressure_start, " + shown(pressure_start) + " bar")
        strokes = (pressure_target - pressure_start) * volume * 1000 / (SEA_LEVEL * stroke_volume)
        work.line(
            "strokes",
            "(pressure_target − pressure_start) × volume × 1000 / (1.01325 × stroke_volume)",
            strokes,
            "",
            pressure_target=pressure_target,
            pressure_start=pressure_start,
            volume=volume,
            stroke_volume=stroke_volume,
        )
        work.fine(
            "stroke_volume", "Full strokes without loss, at sea level; a real pump takes more, the more the higher it goes."
        )
    _check_limit(work, limit, pressure_start, after, pressure_target)
    return {"volume": volume, "pressure_after": after, "strokes": strokes}


def _after(work: Work, volume: float, temperature: float, start: float, grams: float) -> float:
    """Gauge pressure with `grams` of CO2 added, bar: start + nRT/(V − nb) − a(n/V)²."""
    kelvin = temperature + FREEZING
    most = THICK * volume * CO2 / (GAS * kelvin)
    if grams > most:
        raise refuse("cartridge", shown(grams), "at most " + shown(most, 1) + " g of CO2 for a tyre of this size")
    moles = grams / CO2
    alone = moles * GAS * kelvin / (volume - moles * B) - A * (moles / volume) ** 2
    after = start + alone
    work.line("moles", "cartridge / 44.0095", moles, "mol", cartridge=grams)
    work.line("kelvin", "temperature + 273.15", kelvin, "K", temperature=temperature)
    work.line(
        "alone",
        "moles × 0.0831446261815324 × kelvin / (volume − moles × 0.0429) − 3.658 × (moles / volume)^2",
        alone,
        "bar",
        moles=moles,
        kelvin=kelvin,
        volume=volume,
    )
    work.line("pressure_after", "pressure_start + alone", after, "bar", pressure_start=start, alone=alone)
    return after


def _check_limit(work: Work, limit: "float | None", start: float, after: "float | None", target: "float | None") -> None:
    if limit is None:
        work.care("limit", "The limit of tyre and rim was not given, so it was not checked: never above the lower of the two.")
        return
    bound = shown(limit, 2) + " bar"
    if start > limit + NEAR:
        work.stop("pressure_start", "Already above the limit of " + bound + ": let air out.")
    if after is not None and after > limit + NEAR:
        work.stop(
            "cartridge",
            "The whole cartridge makes "
            + shown(after, 1)
            + " bar, above the limit of "
            + bound
            + ": a smaller one, or a pump.",
        )
    if target is not None and target > limit + NEAR:
        work.stop("pressure_target", shown(target, 2) + " bar is above the limit of " + bound + ": pump no higher than that.")
