"""The chain: how many pitches, and how far it has stretched."""

import math

from .calculations import calculation
from .errors import refuse
from .markings import usual_chain_limit
from .quantities import number, whole
from .working import Work, shown

PITCH = 12.7
"""mm, the pitch of a cycle chain: ISO 9633 (from memory), the half inch of ISO 606."""


@calculation(
    id="chain-length",
    family="drivetrain",
    title="Chain length",
    question="How many pitches does the chain need?",
    inputs=[
        number(
            "chainstay",
            "mm",
            "Chainstay",
            possible=(150, 900),
            plausible=(380, 480),
            step=1,
            digits=0,
            help="Bottom-bracket centre to axle centre in a straight line. With rear suspension: where it is longest.",
        ),
        whole("ring_max", "Biggest chainring", unit="teeth", possible=(9, 80), plausible=(28, 56)),
        whole("cog_max", "Biggest cog", unit="teeth", possible=(9, 80), plausible=(16, 52)),
        whole(
            "ring_min",
            "Smallest chainring",
            unit="teeth",
            optional=True,
            possible=(9, 80),
            plausible=(20, 56),
            help="Left out: there is only one chainring.",
        ),
        whole("cog_min", "Smallest cog", unit="teeth", optional=True, possible=(9, 80), plausible=(9, 18)),
        whole(
            "capacity",
            "Capacity of the rear mech",
            unit="teeth",
            optional=True,
            possible=(0, 80),
            plausible=(20, 50),
            help="From the mech's maker.",
        ),
    ],
    outputs=[
        number("exact", "pitches", "Exact meeting length", digits=2),
        number("handbook", "pitches", "Handbook approximation", digits=2),
        whole("meet", "Chain meets at", unit="pitches"),
        whole("pitches", "Pitches", unit="pitches", help="The whole loop, the joining link counted as one."),
        number("length_mm", "mm", "Length when new", digits=1),
        whole("capacity_needed", "Capacity needed", unit="teeth", optional=True, help="Empty until the smallest cog is given."),
    ],
    cautions=[
        "A chain too short can tear off the mech and lock the wheel. Lay it round biggest ring and biggest cog before cutting.",
        "Shift into biggest ring and biggest cog slowly on the stand: the mech must not be stretched straight.",
        "The mech maker's way of sizing comes first, above all with suspension, a clutch or a single chainring.",
    ],
    source="Open belt round two sprockets, R = p/(2 sin(π/Z)), arcs counted in teeth. The approximation: Mott, Machine "
    "Elements in Mechanical Design, 4th ed., §7-6; Shigley, Mechanical Engineering Design, chapter 17. Two pitches more than "
    "where the chain meets: common practice.",
    example={"chainstay": 410, "ring_max": 50, "cog_max": 28, "ring_min": 34, "cog_min": 11, "capacity": 35},
)
def chain_length(
    work: Work,
    *,
    chainstay: float,
    ring_max: int,
    cog_max: int,
    ring_min: "int | None",
    cog_min: "int | None",
    capacity: "int | None",
) -> dict[str, object]:
    """Pitches of 12.7 mm round biggest ring and biggest cog, and the even number to fit; never rounded down."""
    if ring_min is not None and ring_min > ring_max:
        raise refuse("ring_min", ring_min, "no more than ring_max, " + str(ring_max) + " teeth")
    if cog_min is not None and cog_min > cog_max:
        raise refuse("cog_min", cog_min, "no more than cog_max, " + str(cog_max) + " teeth")
    ring = PITCH / (2 * math.sin(math.pi / ring_max))
    cog = PITCH / (2 * math.sin(math.pi / cog_max))
    if chainstay <= ring + cog:
        raise refuse(
            "chainstay", shown(chainstay), "more than " + shown(ring + cog, 1) + " mm, or the sprockets touch one another"
        )
    lean = math.asin((ring - cog) / chainstay)
    straight = 2 * math.sqrt(chainstay**2 - (ring - cog) ** 2) / PITCH
    wrapped = ring_max * (math.pi + 2 * lean) / (2 * math.pi) + cog_max * (math.pi - 2 * lean) / (2 * math.pi)
    exact = straight + wrapped
    centre = chainstay / PITCH
    handbook = 2 * centre + (ring_max + cog_max) / 2 + ((ring_max - cog_max) / (2 * math.pi)) ** 2 / centre
    # A billionth of a pitch: a sum that should be whole must not be pushed up by its last binary digit.
    meet = math.ceil(exact - 1e-9)
    pitches = meet + 2 + meet % 2
    work.line("ring_radius", "12.7 / (2 × sin(180 / ring_max))", ring, "mm", ring_max=float(ring_max))
    work.line("cog_radius", "12.7 / (2 × sin(180 / cog_max))", cog, "mm", cog_max=float(cog_max))
    work.line(
        "lean",
        "asin((ring_radius − cog_radius) / chainstay)",
        math.degrees(lean),
        "°",
        ring_radius=ring,
        cog_radius=cog,
        chainstay=chainstay,
    )
    work.line(
        "straight",
        "2 × √(chainstay^2 − (ring_radius − cog_radius)^2) / 12.7",
        straight,
        "pitches",
        chainstay=chainstay,
        ring_radius=ring,
        cog_radius=cog,
    )
    work.line(
        "wrapped",
        "ring_max × (180 + 2 × lean) / 360 + cog_max × (180 − 2 × lean) / 360",
        wrapped,
        "pitches",
        ring_max=float(ring_max),
        cog_max=float(cog_max),
        lean=math.degrees(lean),
    )
    work.line("exact", "straight + wrapped", exact, "pitches", straight=straight, wrapped=wrapped)
    work.line(
        "handbook",
        "2 × chainstay / 12.7 + (ring_max + cog_max) / 2 + ((ring_max − cog_max) / (2 × π))^2 × 12.7 / chainstay",
        handbook,
        "pitches",
        chainstay=chainstay,
        ring_max=float(ring_max),
        cog_max=float(cog_max),
    )
    work.line("meet", "ceil(exact)", float(meet), "pitches", exact=exact)
    work.line("pitches", "2 × ceil((meet + 2) / 2)", float(pitches), "pitches", meet=float(meet))
    work.say("A loop with a joining link needs two inner ends, so the number is even; the joining link is one of the pitches.")
    work.line("length_mm", "pitches × 12.7", pitches * PITCH, "mm", pitches=float(pitches))
    return {
        "exact": exact,
        "handbook": handbook,
        "meet": meet,
        "pitches": pitches,
        "length_mm": pitches * PITCH,
        "capacity_needed": _capacity(work, ring_max, ring_min, cog_max, cog_min, capacity),
    }


def _capacity(
    work: Work, ring_max: int, ring_min: "int | None", cog_max: int, cog_min: "int | None", capacity: "int | None"
) -> "int | None":
    """Teeth of slack the rear mech has to take up; None while the smallest cog is not known."""
    if cog_min is None:
        if capacity is not None:
            work.care("cog_min", "The capacity is not checked: the smallest cog is missing.")
        return None
    if ring_min is None:
        work.say("No smallest chainring given: taken as a single chainring.")
    least = ring_max if ring_min is None else ring_min
    needed = (ring_max - least) + (cog_max - cog_min)
    work.line(
        "capacity_needed",
        "(ring_max − ring_min) + (cog_max − cog_min)",
        float(needed),
        "teeth",
        ring_max=float(ring_max),
        ring_min=float(least),
        cog_max=float(cog_max),
        cog_min=float(cog_min),
    )
    if capacity is not None and needed > capacity:
        work.stop(
            "capacity",
            "The mech takes up "
            + str(capacity)
            + " teeth, these gears need "
            + str(needed)
            + ": a mech with a longer cage, or closer gears.",
        )
    return needed


@calculation(
    id="chain-wear",
    family="drivetrain",
    title="Chain wear",
    question="How far has the chain stretched, and how much is left?",
    inputs=[
        whole(
            "pitches",
            "Pitches measured",
            unit="pitches",
            default=24,
            possible=(2, 200),
            plausible=(10, 120),
            help="Pin to pin. An even number, so that both ends are the same kind of link: 24 is a foot when new.",
        ),
        number(
            "measured",
            "mm",
            "Measured length",
            possible=(20, 3000),
            plausible=(120, 1560),
            step=0.1,
            digits=1,
            help="Under tension, from one edge of a pin to the same edge of the last one.",
        ),
        whole("speeds", "Speeds", possible=(1, 14), plausible=(1, 13), help="Cogs on the cassette."),
    ],
    outputs=[
        number("elongation", "%", "Stretched by", digits=2),
        number("limit", "%", "Change at", digits=2),
        number("remaining", "%", "Left", digits=2, help="Below zero: past the limit."),
    ],
    cautions=["A worn chain skips under load. A stiff, bent or cracked link, or a pin standing out, is changed at once."],
    source="Pitch 12.7 mm: ISO 9633 (from memory). Change at 0.5 % from 11 speeds up, at 0.75 % below: common practice.",
    example={"pitches": 24, "measured": 306.0, "speeds": 11},
)
def chain_wear(work: Work, *, pitches: int, measured: float, speeds: int) -> dict[str, object]:
    """Elongation over `pitches` in %, the limit for the speeds, and the percentage points left."""
    new = pitches * PITCH
    elongation = (measured / new - 1) * 100
    if not -2 <= elongation <= 6:
        raise refuse(
            "measured",
            shown(measured) + " mm",
            "about " + shown(new, 1) + " mm for " + str(pitches) + " pitches; count the pitches again",
        )
    limit = usual_chain_limit(speeds)
    remaining = limit - elongation
    work.line("new", "pitches × 12.7", new, "mm", pitches=float(pitches))
    work.line("elongation", "(measured / new − 1) × 100", elongation, "%", measured=measured, new=new)
    work.say("Limit: 0.5 % from 11 speeds up, 0.75 % below.")
    work.line("limit", shown(limit), limit, "%")
    work.line("remaining", "limit − elongation", remaining, "%", limit=limit, elongation=elongation)
    if elongation < -0.15:
        work.care("measured", "Shorter than a new chain: measure again, under tension and pin to pin.")
    elif remaining <= 1e-9:
        work.care("measured", "At or past the limit: fit a new chain, and try it on the cassette, which may have worn with it.")
    return {"elongation": elongation, "limit": limit, "remaining": remaining}
