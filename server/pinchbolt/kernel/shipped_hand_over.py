"""The hand-over: the bike is whole, recorded and explained before it leaves the bench. Common practice."""

from .check_items import definition, item

HAND_OVER = definition(
    "hand-over",
    1,
    "Hand-over",
    "Before a bike leaves the bench: everything recorded, weighed, photographed and explained to its rider.",
    "part",
    "mechanic",
    [
        item(
            "position-set",
            "record",
            "Position",
            "Measure saddle and bar against the target.",
            "Within tolerance, recorded as a baseline.",
        ),
        item(
            "joints-recorded", "record", "Joints", "Go through the joints on the record.", "Each tightened, recorded, marked."
        ),
        item(
            "cuts-recorded",
            "record",
            "Cuts",
            "Steerer, hoses, chain, post.",
            "Each recorded with its measure; plug and insertion checked.",
        ),
        item(
            "weighed",
            "record",
            "Weight",
            "Hang the whole bike.",
            "Recorded, with what was on it.",
            essential=False,
            measure="bike_mass",
            unit="g",
        ),
        item("photographed", "record", "Photographs", "Both sides, serial number, marks.", "On the record.", essential=False),
        item(
            "brakes-bedded",
            "ride",
            "Brakes bedded in",
            "From 20 km/h to walking pace, many times, each brake; then a test at walking pace.",
            "Firm, quiet, stops straight.",
            caution="New pads and rotors do not brake fully until bedded in.",
        ),
        item("gears-ridden", "ride", "Gears ridden", "Every gear under load.", "No skip, no overshift."),
        item("tyres-sealed", "ride", "Tyres", "Pressure after a night.", "Held; beads seated all round."),
        item(
            "limits-told",
            "rider",
            "Limits told",
            "Weight limit, tyre and pressure limits, what it is built for.",
            "Told and handed over in writing.",
        ),
        item("use-told", "rider", "Use told", "Axles, charging, pressure, self-check.", "The rider has done each once."),
        item("recheck-told", "rider", "Re-torque agreed", "After the first ride or 100 km.", "A date agreed."),
    ],
)
