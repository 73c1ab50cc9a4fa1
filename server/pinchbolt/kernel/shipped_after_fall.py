"""After a fall or transport: until this passes the bike is not cleared. Common practice."""

from .check_items import definition, item

_DOUBT = "In doubt it fails: a part that may be cracked is not ridden until a qualified person has inspected it."

AFTER_FALL = definition(
    "after-fall",
    1,
    "After a fall or transport",
    "Crack look-over, alignment and everything a blow can move. In doubt it fails.",
    "part",
    "mechanic",
    [
        item(
            "fork-crown",
            "cracks",
            "Fork crown and legs",
            "Wheel out, clean, bright light, finger nail over every edge.",
            "No line, no step, no lifted paint.",
            caution=_DOUBT,
        ),
        item(
            "steerer",
            "cracks",
            "Steerer",
            "Stem off; look at the steerer above the bearing and under the clamp.",
            "No crush mark, no line, plug in its place.",
            caution=_DOUBT,
        ),
        item(
            "head-tube",
            "cracks",
            "Head tube and down tube",
            "Clean, bright light, from below as well.",
            "No line, dent or ripple.",
            caution=_DOUBT,
        ),
        item(
            "stays",
            "cracks",
            "Stays and dropouts",
            "Clean, bright light; squeeze the stays by hand.",
            "No line, no soft spot.",
            caution=_DOUBT,
        ),
        item(
            "tap",
            "cracks",
            "Carbon tap and flex",
            "Tap along each tube with a coin, compare both sides; press gently by hand.",
            "The same clear sound all along, no give, no crackle.",
            caution="Tapping finds some damage, not all. It never proves that a tube is sound. " + _DOUBT,
        ),
        item(
            "bar",
            "cockpit",
            "Bar",
            "Tape off where it took the blow; look at the clamp edges.",
            "No score, no line, ends even.",
            caution=_DOUBT,
        ),
        item("stem", "cockpit", "Stem", "Face plate off; look at the bolt bosses.", "No line, threads clean.", caution=_DOUBT),
        item("levers", "cockpit", "Levers", "Work both; look at pivots and clamps.", "Free, straight, clamped, no leak."),
        item(
            "saddle-rails",
            "saddle",
            "Saddle rails and post",
            "Saddle off or turned over.",
            "Rails straight and whole, clamp and post unmarked.",
            caution=_DOUBT,
        ),
        item(
            "wheels-true",
            "wheels",
            "Wheels",
            "Spin, sight, squeeze spokes, look at the rim's edge.",
            "True, no flat, no loose spoke, no crack.",
        ),
        item("rotors-true", "brakes", "Rotors and calipers", "Spin; pull both levers hard.", "True, no rub, firm, dry."),
        item(
            "alignment",
            "alignment",
            "Wheels in one plane",
            "Sight from behind along both wheels; string or straight edge if in doubt.",
            "One plane, the frame's sides equal.",
        ),
        item(
            "hanger-gauge",
            "drivetrain",
            "Hanger",
            "Gauge at four points of the rim.",
            "Spread within 4 mm.",
            measure="hanger_spread",
            unit="mm",
            high=4,
        ),
        item(
            "crank-pedal", "drivetrain", "Cranks and pedals", "Spin and sight both axles.", "Straight, no play.", caution=_DOUBT
        ),
        item(
            "re-torque", "joints", "Joints", "Every joint on the record once more to its figure.", "All within; marks renewed."
        ),
        item("helmet", "rider", "Helmet", "Ask the rider.", "Replaced if it took a blow.", essential=False),
    ],
)
