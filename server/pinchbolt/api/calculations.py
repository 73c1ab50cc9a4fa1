"""Calculations over HTTP: open to everybody, nothing is kept."""

from typing import Any

import msgspec
from anyio import CapacityLimiter, to_thread
from litestar import Request, Response, get, post
from litestar.params import FromPath

from pinchbolt import units
from pinchbolt.api.problem import Refused
from pinchbolt.api.who import PUBLIC
from pinchbolt.kernel.calculations import Calculation
from pinchbolt.kernel.catalogue import all_calculations, find
from pinchbolt.kernel.errors import InputError

MOST_BODY = 1024 * 1024

# They run on the processor alone; more at once than this would only make pushes wait.
_limiter = CapacityLimiter(2)


@get("/api/calculations", opt={"act": PUBLIC}, sync_to_thread=False)
def list_calculations() -> list[dict[str, Any]]:
    """Every calculation's declaration."""
    return [c.describe() for c in all_calculations()]


@get("/api/calculations/{id:str}", opt={"act": PUBLIC}, sync_to_thread=False)
def get_calculation(id: FromPath[str]) -> dict[str, Any]:
    """One calculation's declaration."""
    return known(id).describe()


@post("/api/calculations/{id:str}", opt={"act": PUBLIC}, status_code=200, request_max_body_size=MOST_BODY)
async def run_calculation(id: FromPath[str], request: Request[Any, Any, Any]) -> Response[bytes]:
    """Run a calculation on inputs in any unit."""
    calculation = known(id)
    given = read_json(await request.body())
    answer = await to_thread.run_sync(run, calculation, given, limiter=_limiter)
    return Response(msgspec.json.encode(answer), media_type="application/json")


def run(calculation: Calculation, given: object) -> dict[str, object]:
    """Inputs in any unit, answered in base units. Raises InputError."""
    return calculation.run(units.base_units(calculation.inputs, given))


def known(id: str) -> Calculation:
    try:
        return find(id)
    except InputError as error:
        raise Refused(404, "There is no such calculation.", error.problems) from None


def read_json(body: bytes) -> object:
    """Any JSON. What is none (with NaN in it, broken off, nested without end) is refused."""
    try:
        return msgspec.json.decode(body)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        given = body[:60].decode("utf-8", "replace")
        errors = [{"field": "body", "given": given, "wanted": "well-formed JSON"}]
        raise Refused(400, "The body is not well-formed JSON: " + str(error)[:120], errors) from None
