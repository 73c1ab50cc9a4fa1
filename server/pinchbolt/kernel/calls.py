"""The phone's way in: one JSON message in, one JSON answer out.

An answer is `{"ok": ...}`, `{"problems": [...]}` when inputs cannot be taken, or `{"failed": "..."}`.
"""

import json

from .adjustable import SETTINGS
from .built_position import built_position
from .catalogue import all_calculations, find
from .checks import all_checks, prepare
from .cutting import cut_card
from .due import due, due_across, ranked
from .errors import InputError
from .fits import fit_report
from .interfaces import INTERFACES
from .intervals import INTERVALS, intervals_of
from .joints import JOINTS
from .lineup import lineup
from .moving import doubts_of_move
from .part_km import part_totals
from .plain import objects
from .plan import PLAN, build_plan, circular
from .record import fold, freeze, resume, summary
from .spoken import spoken
from .stepping_back import compare, steps_back
from .torques import torque_cards
from .verdicts import verdict
from .worn import all_worn, doubts, doubts_of_ride

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Message = dict[str, Any]


def _answer(message: "Message") -> object:
    do = message.get("do")
    if do == "run":
        return find(str(message["calculation"])).run(message["inputs"])
    if do == "fold":
        return fold(str(message["subject"]), message["entries"])
    if do == "freeze":
        return freeze(str(message["subject"]), message["entries"], message.get("snapshot"))
    if do == "resume":
        return resume(message["snapshot"], message["entries"])
    if do == "summary":
        return summary(fold(str(message["subject"]), message["entries"]))
    if do in ("open", "line"):
        return _opened(message, do == "line")
    if do == "due-ranked":
        return ranked(message["rows"])
    if do == "due-across":
        return due_across(message["states"], str(message["now"]), message.get("own"))
    if do == "spoken":
        return spoken(str(message["text"]), message["state"], message.get("units"))
    if do == "steps-back":
        return steps_back(message["state"], message.get("baseline"))
    if do == "compare":
        return compare(message["before"], message["after"])
    if do == "part-totals":
        return part_totals(message["states"])
    if do == "worn":
        return all_worn(message["state"])
    if do == "doubts":
        what, value = str(message["what"]), float(message["value"])
        return doubts(message["state"], what, value, message.get("plus_minus")) or doubts_of_move(message["state"], what, value)
    if do == "doubts-of-ride":
        return doubts_of_ride(float(message["km"]), message.get("hours"))
    if do == "due":
        return due(message["state"], str(message["now"]), message.get("own"))
    if do == "cut":
        return cut_card(str(message["what"]), message["state"])
    if do == "plan":
        report = fit_report(objects(message["state"].get("parts")), message.get("system_mass"), message.get("own_kinds"))
        return build_plan(message["state"], report["worst"], message.get("own"))
    if do == "plan-steps":
        return {"steps": PLAN, "circular": circular(message.get("own") or PLAN)}
    if do == "joints":
        return JOINTS
    if do == "torques":
        return torque_cards(message["state"])
    if do == "position":
        return built_position(message["state"])
    if do == "lineup":
        return lineup(message["event"], message["bikes"])
    if do == "fits":
        return fit_report(message["parts"], message.get("system_mass"), message.get("own_kinds"))
    if do == "interfaces":
        return INTERFACES
    if do == "declarations":
        return [c.describe() for c in all_calculations()]
    if do == "intervals":
        return INTERVALS
    if do == "intervals-of":
        return intervals_of(message.get("climate"))
    if do == "settings":
        return SETTINGS
    if do == "checks":
        return all_checks(message.get("own"))
    if do == "prepare":
        return prepare(message["definition"], message["state"])
    if do == "verdict":
        return verdict(message["check"])
    raise ValueError("unknown message " + repr(do))


def _opened(message: "Message", line: bool) -> "dict[str, Any] | None":
    """A bike folded, from nothing or from a snapshot, with what is due; for a `line` its summary instead of the state.

    None when the snapshot does not serve.
    """
    snapshot = message.get("snapshot")
    if snapshot is None:
        state = fold(str(message["subject"]), message["entries"])
    else:
        state = resume(snapshot, message["entries"])
        if state is None:
            return None
    found = due(state, str(message["now"]), message.get("own"))
    if line:
        return {"summary": summary(state), "due": found}
    return {"state": state, "summary": summary(state), "due": found}


def call(message: str) -> str:
    """Answer one message: `do` names what is asked, see `_answer`."""
    try:
        return json.dumps({"ok": _answer(json.loads(message))})
    except InputError as error:
        return json.dumps({"problems": error.problems})
    except Exception as error:
        return json.dumps({"failed": type(error).__name__ + ": " + str(error)})
