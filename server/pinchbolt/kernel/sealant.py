"""Sealant: how much goes into a tyre, and when it is due again."""

import math

from .calculations import calculation
from .intervals import SEALANT_LASTS, USUAL_CLIMATE
from .quantities import choice, number
from .working import Work, shown

PER_SURFACE = 0.2
"""ml of sealant for each 1000 mm² inside the tyre, a film of 0.2 mm: common practice (30 to 40 ml in a 28 mm road tyre)."""


@calculation(
    id="sealant",
    family="tyres",
    title="Sealant",
    question="How much sealant goes in, and when is it due again?",
    inputs=[
        number(
            "tyre_width",
            "mm",
            "Tyre width",
            possible=(15, 130),
            plausible=(20, 66),
            step=1,
            digits=0,
            help="The first number on the tyre, 28 in 28-622.",
        ),
        number(
            "bead_seat",
            "mm",
            "Bead-seat diameter",
            default=622,
            possible=(200, 700),
            plausible=(305, 635),
            step=1,
            digits=0,
            help="The second number on the tyre, 622 in 28-622.",
        ),
        number("days_since", "days", "Days since it was filled", possible=(0, 5000), plausible=(0, 400), step=1, digits=0),
        choice(
            "climate",
            "Where the bike lives",
            ["cool", "mild", "hot"],
            default=USUAL_CLIMATE,
            help="Warm and dry air dries it sooner.",
        ),
    ],
    outputs=[
        number("volume", "ml", "For each wheel", digits=0),
        number("top_up_in", "days", "Top up in", digits=0, help="Below 0: overdue."),
    ],
    cautions=[
        "Only a sealant that the makers of tyre, rim and tape allow; some do not go with filling from a cartridge.",
        "Sealant closes small holes. It does not make a cut or a worn tyre good.",
    ],
    source="Common practice: a film of 0.2 mm inside the tyre; 180, 120 and 60 days in cool, mild and hot places. The "
    "sealant's maker knows better.",
    example={"tyre_width": 28, "bead_seat": 622, "days_since": 75, "climate": "mild"},
)
def sealant(work: Work, *, tyre_width: float, bead_seat: float, days_since: float, climate: str) -> dict[str, object]:
    """ml for the inner surface of the tyre as a torus, 2π²·Rm·w with Rm = (bead seat + width)/2; days left."""
    surface = math.pi**2 * (bead_seat + tyre_width) * tyre_width
    work.line(
        "surface", "π^2 × (bead_seat + tyre_width) × tyre_width", surface, "mm²", bead_seat=bead_seat, tyre_width=tyre_width
    )
    volume = surface * PER_SURFACE / 1000
    work.line("volume", "surface × film / 1000", volume, "ml", surface=surface, film=PER_SURFACE)
    left = SEALANT_LASTS[climate] - days_since
    work.line("top_up_in", "lasts − days_since", left, "days", lasts=SEALANT_LASTS[climate], days_since=days_since)
    if left <= 0:
        work.care("days_since", "Due: open the valve low and see what is left, then top up.")
    else:
        work.fine("days_since", "Look again in " + shown(left, 0) + " days.")
    return {"volume": volume, "top_up_in": left}
