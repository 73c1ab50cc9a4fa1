"""Every family of calculations, in the order of the bench. A new family is one line here."""

from . import steerer as _steerer
from .calculations import Calculation, all_calculations, find

FAMILIES = (_steerer,)

__all__ = ["FAMILIES", "Calculation", "all_calculations", "find"]
