"""The kinds of interface a part can carry, and the dimensions each wants. Named by dimension or open standard only.

A workshop adds its own kinds the same way: a kind is a name, a label and its fields.
"""

from .plain import objects

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]
    Field = tuple[str, str, str] | tuple[str, str, str, list[str]]


def _kind(kind: str, label: str, fields: "list[Field]") -> "Body":
    """`fields` are (name, unit or `text` or `flag`, label), and of a text the words that the rules know, if they know some."""
    declared: "list[Body]" = []
    for field in fields:
        one: "Body" = {"name": field[0], "unit": field[1], "label": field[2]}
        if len(field) > 3:
            one["known"] = field[3]
        declared.append(one)
    return {"kind": kind, "label": label, "fields": declared}


ENDS = ["front", "rear"]
ROTOR_MOUNTS = ["six-bolt 44 mm", "splined lockring"]
CALIPER_MOUNTS = ["flat", "post"]
FLUIDS = ["mineral", "glycol-ether"]


INTERFACES: "list[Body]" = [
    _kind("shell", "Bottom-bracket shell", [("width", "mm", "Width"), ("bore", "mm", "Bore"), ("thread", "text", "Thread")]),
    _kind(
        "shell-fit",
        "Bottom bracket, outside",
        [("width", "mm", "Shell width"), ("bore", "mm", "Bore"), ("thread", "text", "Thread")],
    ),
    _kind("spindle-seat", "Bottom bracket, inside", [("diameter", "mm", "Spindle diameter")]),
    _kind("spindle", "Crank spindle", [("diameter", "mm", "Diameter")]),
    _kind("freehub", "Freehub spline", [("spline", "text", "Spline, in your own words"), ("width", "mm", "Spline length")]),
    _kind(
        "cassette",
        "Cassette",
        [("spline", "text", "Spline"), ("speeds", "", "Speeds"), ("cog_min", "", "Least cog"), ("cog_max", "", "Largest cog")],
    ),
    _kind("chain", "Chain", [("speeds", "", "Speeds")]),
    _kind("shifter", "Shifter", [("speeds", "", "Speeds"), ("pull", "text", "Cable pull or protocol, in your own words")]),
    _kind(
        "rear-mech",
        "Rear mech",
        [
            ("speeds", "", "Speeds"),
            ("pull", "text", "Cable pull or protocol"),
            ("cog_max", "", "Largest cog"),
            ("capacity", "", "Capacity, teeth"),
        ],
    ),
    _kind("crank-rings", "Chainrings", [("ring_min", "", "Least ring"), ("ring_max", "", "Largest ring")]),
    _kind(
        "ring-mount",
        "Chainring mount on the crank",
        [("bolts", "", "Bolts"), ("circle", "mm", "Bolt circle"), ("shape", "text", "Shape")],
    ),
    _kind(
        "ring-pattern",
        "Chainring pattern",
        [("bolts", "", "Bolts"), ("circle", "mm", "Bolt circle"), ("shape", "text", "Shape")],
    ),
    _kind("steerer", "Steerer", [("diameter", "mm", "Diameter at the stem"), ("crown", "mm", "Crown race seat")]),
    _kind("stem-bore", "Stem, steerer clamp", [("diameter", "mm", "Bore")]),
    _kind(
        "head-tube",
        "Head tube",
        [
            ("upper_type", "text", "Upper type"),
            ("upper_bore", "mm", "Upper bore"),
            ("lower_type", "text", "Lower type"),
            ("lower_bore", "mm", "Lower bore"),
        ],
    ),
    _kind(
        "headset",
        "Headset",
        [
            ("upper_type", "text", "Upper type"),
            ("upper_bore", "mm", "Upper bore"),
            ("steerer", "mm", "Steerer"),
            ("lower_type", "text", "Lower type"),
            ("lower_bore", "mm", "Lower bore"),
            ("crown", "mm", "Crown race seat"),
        ],
    ),
    _kind("bar-clamp", "Stem, bar clamp", [("diameter", "mm", "Diameter")]),
    _kind("bar", "Bar at the clamp", [("diameter", "mm", "Diameter")]),
    _kind("seat-tube", "Seat tube", [("diameter", "mm", "Inner diameter")]),
    _kind(
        "seatpost",
        "Seatpost",
        [("diameter", "mm", "Diameter"), ("bore", "mm", "Inner bore"), ("shape", "text", "Round or own shape")],
    ),
    _kind("post-insert", "What sits inside the post", [("diameter", "mm", "Diameter")]),
    _kind("rails", "Saddle rails", [("width", "mm", "Width"), ("height", "mm", "Height")]),
    _kind("rail-clamp", "Rail clamp", [("width", "mm", "Width"), ("height", "mm", "Height")]),
    _kind(
        "axle",
        "Axle",
        [
            ("length", "mm", "Length over the ends"),
            ("diameter", "mm", "Diameter"),
            ("pitch", "mm", "Thread pitch"),
            ("end", "text", "End, where one part is both axles", ENDS),
        ],
    ),
    _kind(
        "axle-seat",
        "Axle seat in frame or fork",
        [("length", "mm", "Width between the ends"), ("diameter", "mm", "Diameter"), ("pitch", "mm", "Thread pitch")],
    ),
    _kind("hub", "Hub", [("length", "mm", "Width"), ("diameter", "mm", "Axle diameter")]),
    _kind("rotor-mount", "Rotor mount on the hub", [("mount", "text", "Mount", ROTOR_MOUNTS)]),
    _kind("rotor", "Rotor", [("mount", "text", "Mount", ROTOR_MOUNTS), ("diameter", "mm", "Diameter")]),
    _kind(
        "caliper-seat",
        "Caliper mount on frame or fork",
        [
            ("mount", "text", "Mount", CALIPER_MOUNTS),
            ("rotor_min", "mm", "Rotor without adaptor"),
            ("rotor_max", "mm", "Largest rotor allowed"),
        ],
    ),
    _kind("caliper", "Caliper", [("mount", "text", "Mount", CALIPER_MOUNTS), ("fluid", "text", "Fluid", FLUIDS)]),
    _kind("brake-lever", "Brake lever", [("fluid", "text", "Fluid", FLUIDS)]),
    _kind(
        "rim",
        "Rim",
        [
            ("inner_width", "mm", "Inner width"),
            ("bead_seat", "mm", "Bead seat"),
            ("hookless", "flag", "Hookless"),
            ("depth", "mm", "Depth at the valve"),
            ("tyre_min", "mm", "Least tyre marked"),
            ("tyre_max", "mm", "Largest tyre marked"),
        ],
    ),
    _kind(
        "tyre",
        "Tyre",
        [
            ("width", "mm", "Marked width"),
            ("measured", "mm", "Measured width on this rim"),
            ("bead_seat", "mm", "Bead seat"),
            ("hookless", "flag", "Approved for hookless rims"),
        ],
    ),
    _kind("clearance", "Room for the tyre", [("width", "mm", "Narrowest gap"), ("margin", "mm", "Margin wanted each side")]),
    _kind("valve", "Valve", [("length", "mm", "Length")]),
    _kind("hose", "Hose or wire", [("length", "mm", "Length")]),
    _kind("route", "Its route", [("length", "mm", "Length straight ahead"), ("slack", "mm", "Slack for turning the bars")]),
    _kind("ports", "Electrical ports", [("count", "", "Ports"), ("used", "", "In use")]),
    _kind("plugs", "Plugs for ports", [("count", "", "Plugs")]),
    _kind("pedal-eye", "Crank, pedal thread", [("thread", "text", "Thread")]),
    _kind("pedal", "Pedal", [("thread", "text", "Thread")]),
    _kind("front-mech-seat", "Front-mech mount", [("mount", "text", "Mount: clamp diameter or braze-on")]),
    _kind("front-mech", "Front mech", [("mount", "text", "Mount: clamp diameter or braze-on")]),
    _kind("load-limit", "Weight limit", [("limit", "kg", "Rider, bike and load together")]),
]


def field_said(kind: object, field: str, own: "list[Body]") -> str:
    """A field in words, to say what to measure: its label without the hint. One that nobody declared keeps its name."""
    for one in INTERFACES + own:
        for known in objects(one.get("fields")) if one.get("kind") == kind else []:
            if known.get("name") == field:
                return _small(str(known.get("label") or field).split(":")[0].split(",")[0].strip())
    return field.replace("_", " ")


def kind_said(kind: str, own: "list[Body]") -> str:
    """A kind of interface in words."""
    for one in INTERFACES + own:
        if one.get("kind") == kind:
            return _small(str(one.get("label") or kind))
    return kind.replace("-", " ")


def _small(label: str) -> str:
    """As it stands within a sentence; what begins with capitals keeps them."""
    return label if label[1:2].isupper() else label[:1].lower() + label[1:]
