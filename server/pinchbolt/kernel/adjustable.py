"""The settings of a bike: what can be adjusted, where, in which unit, which way is more, and how far it can go.

`possible` is what a bicycle can have at all, `usual` what most have: beyond the first a figure is refused, beyond the second
asked about. Both are common practice, and wide: a child's bike and a tall rider's are inside.
"""

from .plain import mapping
from .quantities import finite
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]
    Span = tuple[float, float]


# Of what is turned or trimmed only the change counts, from wherever it once began.
TURNED = ((-100, 100), (-20, 20))
TRIMMED = ((-200, 200), (-60, 60))
PRESSURE = ((0, 20), (0.3, 11))
REACHED = ((-100, 300), (0, 150))
ANYWHERE = ((-1e6, 1e6), (-1e6, 1e6))  # a setting that this version does not know
TILTED = ((-180, 180), (-90, 90))


def _setting(
    name: str, place: str, label: str, unit: str, step: float, more: str, less: str, span: "tuple[Span, Span]"
) -> "Body":
    return {
        "setting": name,
        "place": place,
        "label": label,
        "unit": unit,
        "step": step,
        "more": more,
        "less": less,
        "possible": span[0],
        "usual": span[1],
    }


SETTINGS: "list[Body]" = [
    _setting("saddle_height", "saddle", "Saddle height", "mm", 1, "up", "down", ((200, 1200), (400, 900))),
    _setting("saddle_setback", "saddle", "Saddle setback", "mm", 1, "back", "forward", ((-300, 500), (-100, 300))),
    _setting("saddle_tilt", "saddle", "Saddle tilt", "\u00b0", 0.5, "nose up", "nose down", ((-45, 45), (-15, 10))),
    _setting("bar_height", "bar", "Bar height", "mm", 1, "up", "down", ((-500, 1500), (-200, 1200))),
    _setting("bar_reach", "bar", "Bar reach", "mm", 1, "forward", "back", ((-500, 1500), (0, 1000))),
    _setting("bar_tilt", "bar", "Bar tilt", "\u00b0", 0.5, "up", "down", ((-90, 90), (-30, 45))),
    _setting("spacers_below", "bar", "Spacers below the stem", "mm", 2.5, "more", "less", ((0, 200), (0, 60))),
    _setting("lever_reach_left", "levers", "Lever reach, left", "mm", 1, "out", "in", REACHED),
    _setting("lever_reach_right", "levers", "Lever reach, right", "mm", 1, "out", "in", REACHED),
    _setting("lever_height_left", "levers", "Lever height, left", "mm", 1, "up", "down", ((-300, 300), (-100, 150))),
    _setting("lever_height_right", "levers", "Lever height, right", "mm", 1, "up", "down", ((-300, 300), (-100, 150))),
    _setting("lever_angle_left", "levers", "Lever angle, left", "\u00b0", 0.5, "up", "down", TILTED),
    _setting("lever_angle_right", "levers", "Lever angle, right", "\u00b0", 0.5, "up", "down", TILTED),
    _setting("pressure_front", "tyres", "Pressure, front", "bar", 0.1, "more", "less", PRESSURE),
    _setting("pressure_rear", "tyres", "Pressure, rear", "bar", 0.1, "more", "less", PRESSURE),
    _setting("pad_contact_front", "brakes", "Pad contact, front", "turns", 0.25, "out", "in", TURNED),
    _setting("pad_contact_rear", "brakes", "Pad contact, rear", "turns", 0.25, "out", "in", TURNED),
    _setting("index_rear", "gears", "Index, rear", "turns", 0.25, "out", "in", TURNED),
    _setting("index_front", "gears", "Index, front", "turns", 0.25, "out", "in", TURNED),
    _setting("trim_rear", "gears", "Electronic trim, rear", "steps", 1, "in", "out", TRIMMED),
    _setting("trim_front", "gears", "Electronic trim, front", "steps", 1, "in", "out", TRIMMED),
    _setting("gap_rear", "gears", "Upper pulley gap", "turns", 0.25, "closer", "wider", TURNED),
    _setting("limit_high_rear", "gears", "Limit, smallest cog", "turns", 0.25, "in", "out", TURNED),
    _setting("limit_low_rear", "gears", "Limit, largest cog", "turns", 0.25, "in", "out", TURNED),
    _setting("limit_high_front", "gears", "Limit, large ring", "turns", 0.25, "in", "out", TURNED),
    _setting("limit_low_front", "gears", "Limit, small ring", "turns", 0.25, "in", "out", TURNED),
    _setting("cage_height_front", "gears", "Front cage height", "mm", 0.5, "up", "down", ((-20, 60), (-5, 10))),
]


def setting_named(name: str) -> "Body":
    """The setting called `name`; one that this version does not know has its bare name and neither unit nor ways."""
    for setting in SETTINGS:
        if setting["setting"] == name:
            return setting
    return _setting(name, "other", name.replace("_", " "), "", 1, "more", "less", ANYWHERE)


def stands(state: "Body", setting: "Body") -> "float | None":
    """Where a setting stands: as set, else as measured; turns and steps of a bike never turned count from nought."""
    name = str(setting["setting"])
    for held in ("settings", "measures"):
        value = finite(mapping(mapping(state.get(held)).get(name)).get("value"))
        if value is not None:
            return value
    return 0.0 if setting["unit"] in ("turns", "steps") else None


def way_to_go(setting: "Body", by: float) -> str:
    """What to do: `4 mm down`, `0.5 turns in`."""
    unit = str(setting["unit"])
    size = shown(abs(by), 2).rstrip("0").rstrip(".")
    gap = "" if unit in ("", "\u00b0") else " "
    if unit in ("turns", "steps") and size == "1":
        unit = unit[:-1]
    return size + gap + unit + " " + str(setting["more"] if by > 0 else setting["less"])


def tidy(value: float) -> float:
    """Without the noise of decimal sums: no setting is read finer than a ten-thousandth."""
    return float(shown(value, 4).replace("\u2212", "-"))
