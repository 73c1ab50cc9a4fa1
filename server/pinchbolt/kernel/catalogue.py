"""Every family of calculations, in the order of the bench. A new family is one line here."""

from . import chain as _chain
from . import fasteners as _fasteners
from . import position as _position
from . import steerer as _steerer
from .calculations import Calculation, all_calculations, find

FAMILIES = (
    _position,
    _steerer,
    _chain,
    _fasteners,
)

__all__ = ["FAMILIES", "Calculation", "all_calculations", "find"]
