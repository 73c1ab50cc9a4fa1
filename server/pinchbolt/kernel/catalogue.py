"""Every family of calculations. The order of import is the order of the bench; a new family is two lines here."""

# isort: off
from . import position as _position
from . import position_transfer as _position_transfer
from . import saddle as _saddle
from . import frame as _frame
from . import steerer as _steerer
from . import hoses as _hoses
from . import chain as _chain
from . import gears as _gears
from . import hanger as _hanger
from . import tyres as _tyres
from . import tyre_pressure as _tyre_pressure
from . import tyre_air as _tyre_air
from . import gas as _gas
from . import sealant as _sealant
from . import spokes as _spokes
from . import fasteners as _fasteners
from . import bolts as _bolts
from . import weight as _weight
from . import swaps as _swaps
from . import brakes as _brakes
from . import wear as _wear

# isort: on
from .calculations import Calculation, all_calculations, find

FAMILIES = (
    _position,
    _position_transfer,
    _saddle,
    _frame,
    _steerer,
    _hoses,
    _chain,
    _gears,
    _hanger,
    _tyres,
    _tyre_pressure,
    _tyre_air,
    _gas,
    _sealant,
    _spokes,
    _fasteners,
    _bolts,
    _weight,
    _swaps,
    _brakes,
    _wear,
)

__all__ = ["FAMILIES", "Calculation", "all_calculations", "find"]
