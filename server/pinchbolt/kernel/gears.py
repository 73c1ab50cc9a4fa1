"""Gears: the table of them, and the one for the climb."""

import math

from .calculations import calculation
from .errors import refuse
from .order import in_order
from .quantities import number, numbers, rows, whole
from .working import Work, shown

GRAVITY = 9.80665
"""m/s², standard."""

SAME = 2.0
"""%, gears nearer than this are the same to the legs."""

ROLLOUT = number(
    "rollout",
    "mm",
    "Rollout",
    possible=(500, 3000),
    plausible=(1900, 2350),
    step=1,
    digits=0,
    help="Floor covered by one turn of the rear wheel, rider on, at riding pressure.",
)


# No cassette has a larger one: common practice, and the most the cogs of a calculation may have.
LARGEST_COG = 80


def _teeth(name: str, values: list[float]) -> list[int]:
    """`values` as whole teeth, each once, smallest first."""
    kept: list[int] = []
    for i, value in enumerate(values):
        if value != int(value):
            raise refuse(name + "[" + str(i) + "]", shown(value), "a whole number of teeth")
        if int(value) not in kept:
            kept.append(int(value))
    return in_order(kept, kept)


@calculation(
    id="gear-table",
    family="drivetrain",
    title="Gear table",
    question="How far do these gears reach, and where are the big steps?",
    inputs=[
        numbers("rings", "teeth", "Chainrings", possible=(9, 80), plausible=(20, 58), digits=0, most=4),
        numbers("cogs", "teeth", "Cogs", possible=(7, 80), plausible=(9, 52), digits=0, most=16),
        ROLLOUT,
        number("cadence", "rpm", "Cadence", default=90, possible=(10, 250), plausible=(50, 120), step=5, digits=0),
    ],
    outputs=[
        rows(
            "gears",
            "Gears, lowest first",
            [
                whole("ring", "Ring", unit="teeth"),
                whole("cog", "Cog", unit="teeth"),
                number("ratio", "", "Ratio", digits=2),
                number("development", "m", "Development", digits=2, help="Metres a turn of the cranks."),
                number("speed", "km/h", "Speed", digits=1),
                number("step", "%", "Step from the next lower", digits=1, optional=True),
            ],
        ),
        number("range", "%", "Range", digits=0, help="Highest gear over lowest: 100 % is a single gear."),
        rows(
            "duplicates",
            "The same to the legs",
            [
                whole("ring", "Ring", unit="teeth"),
                whole("cog", "Cog", unit="teeth"),
                whole("ring_other", "Ring", unit="teeth"),
                whole("cog_other", "Cog", unit="teeth"),
                number("apart", "%", "Apart", digits=1),
            ],
            least=0,
            help="Pairs within 2 %.",
        ),
        number("jump_max", "%", "Biggest step", digits=1),
    ],
    cautions=[
        "Some of these gears cross the chain: check chain length, and that nothing rubs, in every gear that will be used."
    ],
    source="Ratio = ring/cog, development = ratio × rollout. Two per cent as the same gear: common practice.",
    example={"rings": [50, 34], "cogs": [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32], "rollout": 2105, "cadence": 90},
)
def gear_table(work: Work, *, rings: list[float], cogs: list[float], rollout: float, cadence: float) -> dict[str, object]:
    """Every pair of ring and cog by rising ratio; speed in km/h at `cadence` rpm, steps in %."""
    pairs = [(ring, cog) for ring in _teeth("rings", rings) for cog in _teeth("cogs", cogs)]
    # Of equal ratios the smaller ring comes first, which runs straighter on the bigger cogs' side.
    pairs = in_order([(ring / cog, ring) for ring, cog in pairs], pairs)
    gears: list[dict[str, object]] = []
    jump, before, jump_from = 0.0, 0.0, 0.0
    for ring, cog in pairs:
        ratio = ring / cog
        development = ratio * rollout / 1000
        step = (ratio / before - 1) * 100 if before else None
        if step is not None and step > jump:
            jump, jump_from = step, before
        gears.append(
            {
                "ring": ring,
                "cog": cog,
                "ratio": ratio,
                "development": development,
                "speed": development * cadence * 60 / 1000,
                "step": step,
            }
        )
        before = ratio
    low, high = pairs[0], pairs[-1]
    for ring, cog in (low, high):
        _show_gear(work, ring, cog, rollout, cadence)
    reach = (high[0] / high[1]) / (low[0] / low[1]) * 100
    work.line(
        "range",
        "(ring_high / cog_high) / (ring_low / cog_low) × 100",
        reach,
        "%",
        ring_high=float(high[0]),
        cog_high=float(high[1]),
        ring_low=float(low[0]),
        cog_low=float(low[1]),
    )
    if jump_from:
        work.line(
            "jump_max",
            "(ratio / ratio_below − 1) × 100",
            jump,
            "%",
            ratio=jump_from * (1 + jump / 100),
            ratio_below=jump_from,
        )
    else:
        work.line("jump_max", "0", 0.0, "%")
    return {"gears": gears, "range": reach, "duplicates": _duplicates(pairs), "jump_max": jump}


def _show_gear(work: Work, ring: int, cog: int, rollout: float, cadence: float) -> None:
    development = ring / cog * rollout / 1000
    work.line(
        "development",
        "ring / cog × rollout / 1000",
        development,
        "m",
        ring=float(ring),
        cog=float(cog),
        rollout=rollout,
    )
    work.line(
        "speed",
        "development × cadence × 60 / 1000",
        development * cadence * 60 / 1000,
        "km/h",
        development=development,
        cadence=cadence,
    )


def _duplicates(pairs: list[tuple[int, int]]) -> list[dict[str, object]]:
    """Pairs of gears, the lower one first, that are within 2 % of one another."""
    found: list[dict[str, object]] = []
    for i, (ring, cog) in enumerate(pairs):
        for other in pairs[i + 1 :]:
            apart = (other[0] * cog / (other[1] * ring) - 1) * 100
            if apart > SAME + 1e-9:
                break
            found.append({"ring": ring, "cog": cog, "ring_other": other[0], "cog_other": other[1], "apart": apart})
    return found


@calculation(
    id="climb-gear",
    family="drivetrain",
    title="Gear for the climb",
    question="Is the lowest gear low enough for this rider on this climb?",
    inputs=[
        number(
            "rider", "kg", "Rider", possible=(15, 250), plausible=(40, 120), step=1, digits=0, help="With clothes and shoes."
        ),
        number("bike", "kg", "Bike and load", possible=(2, 150), plausible=(6, 40), step=0.5, digits=1),
        number(
            "gradient",
            "%",
            "Gradient",
            possible=(0, 60),
            plausible=(0, 25),
            step=1,
            digits=1,
            help="Height gained for a hundred metres of level distance.",
        ),
        number(
            "power",
            "W",
            "Power",
            possible=(20, 2500),
            plausible=(80, 450),
            step=10,
            digits=0,
            help="What the rider holds for the whole climb, at the pedals.",
        ),
        number(
            "rolling",
            "",
            "Rolling resistance",
            default=0.005,
            possible=(0.001, 0.1),
            plausible=(0.002, 0.02),
            step=0.001,
            digits=4,
            help="Crr. 0.004 on good asphalt, 0.01 and more on gravel: common practice.",
        ),
        number(
            "drag_area",
            "m²",
            "Drag area",
            default=0.35,
            possible=(0.05, 2),
            plausible=(0.2, 0.7),
            step=0.05,
            digits=2,
            help="CdA. 0.3 to 0.4 with hands on the hoods: common practice.",
        ),
        number(
            "air_density",
            "kg/m³",
            "Air density",
            default=1.225,
            possible=(0.4, 1.6),
            plausible=(0.85, 1.35),
            step=0.05,
            digits=3,
            help="1.225 at sea level and 15 °C (ISO 2533), 1.006 at 2000 m.",
        ),
        number(
            "efficiency",
            "",
            "Drive efficiency",
            default=0.975,
            possible=(0.5, 1),
            plausible=(0.93, 0.99),
            step=0.005,
            digits=3,
        ),
        whole("ring_min", "Smallest chainring", unit="teeth", possible=(9, 80), plausible=(20, 50)),
        whole("cog_max", "Biggest cog", unit="teeth", possible=(9, 80), plausible=(21, 52)),
        ROLLOUT,
        number(
            "cadence_min",
            "rpm",
            "Least cadence",
            default=60,
            possible=(10, 150),
            plausible=(45, 90),
            step=5,
            digits=0,
            help="Below it the knees complain.",
        ),
    ],
    outputs=[
        number("speed", "km/h", "Speed", digits=1),
        number("cadence", "rpm", "Cadence in the lowest gear", digits=0),
        number("ratio_wanted", "", "Ratio wanted", digits=2),
        whole("cog_wanted", "Cog wanted", unit="teeth", help="With the smallest ring, the smallest whole cog that will do."),
    ],
    source="Power balance after Martin et al., J. Appl. Biomech. 14 (1998) 276-291, without wind, acceleration and bearings; "
    "g = 9.80665 m/s². Crr, CdA and efficiency are assumptions.",
    example={
        "rider": 72,
        "bike": 9,
        "gradient": 9,
        "power": 220,
        "ring_min": 34,
        "cog_max": 32,
        "rollout": 2105,
        "cadence_min": 70,
    },
)
def climb_gear(
    work: Work,
    *,
    rider: float,
    bike: float,
    gradient: float,
    power: float,
    rolling: float,
    drag_area: float,
    air_density: float,
    efficiency: float,
    ring_min: int,
    cog_max: int,
    rollout: float,
    cadence_min: float,
) -> dict[str, object]:
    """Speed held on the climb, km/h, the cadence it gives in the lowest gear, and the gear for `cadence_min`."""
    mass = rider + bike
    slope = math.atan(gradient / 100)
    hold = mass * GRAVITY * (math.sin(slope) + rolling * math.cos(slope))
    drag = 0.5 * air_density * drag_area
    v = _speed(power * efficiency, hold, drag)
    speed = v * 3.6
    cadence = v * 60 / (ring_min / cog_max * rollout / 1000)
    ratio_wanted = v * 60 / (cadence_min * rollout / 1000)
    cog_wanted = math.ceil(ring_min / ratio_wanted - 1e-9)
    work.line("mass", "rider + bike", mass, "kg", rider=rider, bike=bike)
    work.line("slope", "atan(gradient / 100)", math.degrees(slope), "°", gradient=gradient)
    work.line(
        "hold",
        "mass × 9.80665 × (sin(slope) + rolling × cos(slope))",
        hold,
        "N",
        mass=mass,
        slope=math.degrees(slope),
        rolling=rolling,
    )
    work.say("The speed v in m/s is found by trial until power × efficiency is used up; put in, it gives itself back:")
    work.line(
        "v",
        "power × efficiency / (hold + air_density × drag_area × v^2 / 2)",
        v,
        "m/s",
        power=power,
        efficiency=efficiency,
        hold=hold,
        air_density=air_density,
        drag_area=drag_area,
        v=v,
    )
    work.line("speed", "v × 3.6", speed, "km/h", v=v)
    work.line(
        "cadence",
        "v × 60 × 1000 × cog_max / (ring_min × rollout)",
        cadence,
        "rpm",
        v=v,
        cog_max=float(cog_max),
        ring_min=float(ring_min),
        rollout=rollout,
    )
    work.line(
        "ratio_wanted",
        "v × 60 × 1000 / (cadence_min × rollout)",
        ratio_wanted,
        "",
        v=v,
        cadence_min=cadence_min,
        rollout=rollout,
    )
    work.line(
        "cog_wanted",
        "ceil(ring_min / ratio_wanted)",
        float(cog_wanted),
        "teeth",
        ring_min=float(ring_min),
        ratio_wanted=ratio_wanted,
    )
    if cadence < cadence_min - 1e-9 and cog_wanted > LARGEST_COG:
        work.care(
            "cog_max",
            "The lowest gear turns at "
            + shown(cadence, 0)
            + " rpm. No cog brings "
            + shown(cadence_min, 0)
            + " rpm: a smaller ring, or less of a climb.",
        )
    elif cadence < cadence_min - 1e-9:
        work.care(
            "cog_max",
            "The lowest gear turns at "
            + shown(cadence, 0)
            + " rpm. A cog of "
            + str(cog_wanted)
            + " teeth, or a smaller ring, brings "
            + shown(cadence_min, 0)
            + " rpm: check the mech's limits.",
        )
    else:
        work.fine("cog_max", "The lowest gear turns at " + shown(cadence, 0) + " rpm.")
    return {"speed": speed, "cadence": cadence, "ratio_wanted": ratio_wanted, "cog_wanted": cog_wanted}


def _speed(power: float, hold: float, drag: float) -> float:
    """The one v > 0, m/s, with v·hold + drag·v³ = power; from above, where Newton's step never passes the root."""
    v = power / hold
    for _ in range(200):
        step = (v * (hold + drag * v * v) - power) / (hold + 3 * drag * v * v)
        v -= step
        if step <= 1e-14 * v:
            break
    return v
