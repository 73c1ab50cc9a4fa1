"""The whole OpenAPI schema against the running server, as each role: schemathesis makes the requests from the schema."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis.checks import not_a_server_error
from schemathesis.schemas import APIOperation
from schemathesis.specs.openapi.checks import content_type_conformance, response_schema_conformance, status_code_conformance

from pinchbolt.api.schema import document
from pinchbolt.workshop import Workshop
from tests.server import hands, running

# Bounded here; `make soak` asks for more of both.
EXAMPLES = int(os.environ.get("SCHEMA_EXAMPLES", "4"))
EVERY = int(os.environ.get("SCHEMA_EVERY", "10"))
ROLES = {"owner": hands.JUNO, "mechanic": hands.BAS, "checker": hands.ILKA, "rider": hands.IMRE}
CHECKS = [not_a_server_error, content_type_conformance, response_schema_conformance, status_code_conformance]
# A stream has no end, and whoever signs out or shuts the asker out ends the test: those have tests of their own.
LEFT_OUT = {("/api/live", "GET"), ("/api/me", "DELETE"), ("/api/devices/{id}/revoke", "POST")}

schema = schemathesis.openapi.from_dict(document())


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, dict[str, str]]]:
    """A running server and each role's token."""
    data: Path = tmp_path_factory.mktemp("schema") / "data"
    tokens: dict[str, str] = {"nobody": ""}
    with Workshop(data) as workshop:
        for i, (role, person) in enumerate(ROLES.items()):
            workshop.add_person(person, role.title(), role)
            tokens[role] = workshop.people.let_in(person, f"b0000000-0000-4000-8000-00000000000{i}", role)[1]
    with running.server(data) as served:
        yield served.url, tokens


def operations() -> list[str]:
    found = [(path, method.upper()) for path, item in document()["paths"].items() for method in item if method != "parameters"]
    return [f"{method} {path}" for path, method in found if (path, method) not in LEFT_OUT and not _one_of_many(path)]


def _one_of_many(path: str) -> bool:
    """Calculations are alike by construction: every tenth is asked over HTTP (all in `make soak`), all in their own tests."""
    if not path.startswith("/api/calculations/"):
        return False
    named = sorted(p for p in document()["paths"] if p.startswith("/api/calculations/"))
    return named.index(path) % EVERY != 0


@pytest.mark.parametrize("operation", operations())
def test_no_mistake_of_ours_and_no_breach(house: tuple[str, dict[str, str]], operation: str):
    url, tokens = house
    method, path = operation.split(" ", 1)

    for role, token in tokens.items():
        headers = {**running.PROTOCOL, **({"Cookie": f"pinchbolt={token}"} if token else {})}
        ask(schema[path][method], url, role, headers)


def ask(operation: APIOperation, url: str, role: str, headers: dict[str, str]) -> None:  # type: ignore[type-arg]
    """A few requests made from the schema, and what holds of every answer."""

    @settings(
        max_examples=EXAMPLES,
        deadline=None,
        derandomize=True,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy())
    def asked(case: schemathesis.Case) -> None:
        answer = case.call(base_url=url, headers=headers)
        assert answer.status_code < 500, (role, answer.text)
        case.validate_response(answer, checks=CHECKS)

    asked()
