"""The phone's way in: one JSON message in, one JSON answer out.

An answer is `{"ok": ...}`, `{"problems": [...]}` when inputs cannot be taken, or `{"failed": "..."}`.
"""

import json

from .adjustable import SETTINGS
from .built_position import built_position
from .catalogue import all_calculations, find
from .checks import all_checks, prepare
from .cutting import cut_card
from .due import due
from .errors import InputError
from .fits import fit_report
from .interfaces import INTERFACES
from .joints import JOINTS
from .lineup import lineup
from .plain import objects
from .plan import PLAN, build_plan, circular
from .record import fold, freeze, resume, summary
from .torques import torque_cards
from .verdicts import verdict

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
        return freeze(str(message["subject"]), message["entries"])
    if do == "resume":
        return resume(message["snapshot"], message["entries"])
    if do == "summary":
        return summary(fold(str(message["subject"]), message["entries"]))
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
    if do == "settings":
        return SETTINGS
    if do == "checks":
        return all_checks(message.get("own"))
    if do == "prepare":
        return prepare(message["definition"], message["state"])
    if do == "verdict":
        return verdict(message["check"])
    raise ValueError("unknown message " + repr(do))


def call(message: str) -> str:
    """Answer one message: `do` names what is asked, see `_answer`."""
    try:
        return json.dumps({"ok": _answer(json.loads(message))})
    except InputError as error:
        return json.dumps({"problems": error.problems})
    except Exception as error:
        return json.dumps({"failed": type(error).__name__ + ": " + str(error)})
