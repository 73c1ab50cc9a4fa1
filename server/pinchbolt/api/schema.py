"""The OpenAPI description, made from the same declarations and structs that do the work."""

from functools import cache
from typing import Any

import msgspec
from litestar import Response, get

from pinchbolt import __version__
from pinchbolt.access.people import Listed, Person
from pinchbolt.api import PROTOCOL, PROTOCOL_HEADER
from pinchbolt.api.calculations import MOST_BODY
from pinchbolt.api.login import Login
from pinchbolt.api.pair import Pairing
from pinchbolt.api.passkeys import Made, Shown
from pinchbolt.api.people import Invitation, Invited, NewPerson
from pinchbolt.api.sync import MOST_PULLED, USUAL_PULLED
from pinchbolt.api.who import COOKIE, PUBLIC
from pinchbolt.entries.batch import MOST_BATCH_BYTES, MOST_ENTRIES
from pinchbolt.entries.bodies import BODIES, DescribeEvent
from pinchbolt.entries.envelope import Envelope
from pinchbolt.entries.signing import Head, Jwk
from pinchbolt.kernel import quantities as q
from pinchbolt.kernel.calculations import Calculation
from pinchbolt.kernel.catalogue import all_calculations
from pinchbolt.photos.looking import FORMATS
from pinchbolt.photos.looking import MOST_BYTES as MOST_PHOTO_BYTES
from pinchbolt.store.log import Pushed

Schema = dict[str, Any]

_PLAIN: dict[str, Schema] = {q.FLAG: {"type": "boolean"}, q.TEXT: {"type": "string", "minLength": 1, "maxLength": q.MOST_TEXT}}


@get("/api/schema", opt={"act": PUBLIC}, sync_to_thread=False)
def schema() -> Response[bytes]:
    """The OpenAPI document."""
    return Response(msgspec.json.encode(document()), media_type="application/vnd.oai.openapi+json")


@cache
def document() -> Schema:
    """OpenAPI 3.1."""
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Pinchbolt",
            "version": __version__,
            "description": "The record and the calculator of a bicycle builder's bench. Units of the calculations' numbers are "
            "base units; a text may carry any other unit of the same dimension.",
        },
        "paths": {**_calculations(), **_sync(), **_reads(), **_people(), **_photos()},
        "components": {
            "schemas": _components(),
            "securitySchemes": {"device": {"type": "apiKey", "in": "cookie", "name": COOKIE}},
        },
    }


def _calculations() -> Schema:
    paths: Schema = {
        "/api/calculations": {"get": _operation("Every calculation's declaration", {"type": "array"}, open_to_all=True)},
    }
    for calculation in all_calculations():
        run = _operation(calculation.title, answer_schema(calculation), open_to_all=True, body=inputs_schema(calculation))
        run["description"] = calculation.question
        run["requestBody"]["content"]["application/json"]["example"] = calculation.example
        told = _operation("Its declaration", {"type": "object"}, open_to_all=True)
        paths["/api/calculations/" + calculation.id] = {"get": told, "post": run}
    return paths


def inputs_schema(calculation: Calculation) -> Schema:
    """The inputs of a calculation as a JSON schema."""
    return _object(calculation.inputs)


def answer_schema(calculation: Calculation) -> Schema:
    """The answer of a calculation as a JSON schema. Any output may be null when it could not be had."""
    outputs = {o.name: {"description": _said(o), "x-unit": o.unit} for o in calculation.outputs}
    finding = {
        "type": "object",
        "properties": {
            "level": {"enum": ["fine", "care", "stop"]},
            "field": {"type": "string"},
            "text": {"type": "string"},
        },
    }
    return {
        "type": "object",
        "required": ["outputs", "findings", "working"],
        "properties": {
            "outputs": {"type": "object", "required": list(outputs), "properties": outputs},
            "findings": {"type": "array", "items": finding},
            "working": {"type": "array", "items": {"type": "object"}},
            "uncertainty": {"type": "object"},
        },
    }


def _object(fields: list[q.Quantity]) -> Schema:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": [f.name for f in fields if f.default is None and not f.optional],
        "properties": {f.name: _input(f) for f in fields},
    }


def _input(field: q.Quantity) -> Schema:
    made: Schema
    if field.kind == q.ROWS:
        made = {"type": "array", "items": _object(field.fields), "minItems": field.least, "maxItems": field.most}
    elif field.kind == q.NUMBERS:
        made = {"type": "array", "items": _measure(field), "minItems": field.least, "maxItems": field.most}
    elif field.kind == q.CHOICE:
        made = {"enum": field.choices}
    elif field.kind in _PLAIN:
        made = dict(_PLAIN[field.kind])
    else:
        made = _measure(field)
    made["description"] = _said(field)
    if field.default is not None:
        made["default"] = field.default
    if field.optional or field.default is not None:
        made = {"anyOf": [made, {"type": "null"}]}
    return made


def _measure(field: q.Quantity) -> Schema:
    number: Schema = {"type": "integer" if field.kind == q.WHOLE else "number"}
    if field.possible is not None:
        number["minimum"], number["maximum"] = field.possible
    forms: list[Schema] = [number, {"type": "string", "maxLength": 60, "description": f"a number and a unit like {field.unit}"}]
    if field.kind == q.NUMBER:
        forms.append({"$ref": "#/components/schemas/Measured"})
    return {"anyOf": forms, "x-unit": field.unit}


def _said(field: q.Quantity) -> str:
    unit = f" [{field.unit}]" if field.unit else ""
    return f"{field.label}{unit}" + (f". {field.help}" if field.help else "")


def _sync() -> Schema:
    batch = {
        "type": "object",
        "additionalProperties": False,
        "required": ["device", "entries"],
        "description": f"At most {MOST_BATCH_BYTES} bytes.",
        "properties": {
            "device": {"type": "string"},
            "entries": {"type": "array", "maxItems": MOST_ENTRIES, "items": {"$ref": "#/components/schemas/Envelope"}},
        },
    }
    held = {
        "type": "object",
        "required": ["seq", "received_at", "entry"],
        "properties": {
            "seq": {"type": "integer"},
            "received_at": {"type": "string"},
            "entry": {"$ref": "#/components/schemas/Envelope"},
        },
    }
    page = {
        "type": "object",
        "required": ["entries", "next", "more"],
        "properties": {
            "entries": {"type": "array", "items": held},
            "next": {"type": "integer"},
            "more": {"type": "boolean"},
        },
    }
    pull = _operation("Entries after a cursor", page)
    pull["parameters"] = [
        _query("after", {"type": "integer", "minimum": 0, "default": 0}),
        _query("limit", {"type": "integer", "minimum": 1, "maximum": MOST_PULLED, "default": USUAL_PULLED}),
    ]
    pushed = {"$ref": "#/components/schemas/Pushed"}
    pairing = _changing(
        _operation("Pair a device", {"$ref": "#/components/schemas/Me"}, True, {"$ref": "#/components/schemas/Pairing"})
    )
    return {
        "/api/sync/push": {"post": _changing(_operation("Take a batch of entries", pushed, body=batch))},
        "/api/sync/pull": {"get": pull},
        "/api/pair": {"post": pairing},
    }


def _reads() -> Schema:
    me: Schema = {"get": _operation("Who this device is", {"$ref": "#/components/schemas/Me"})}
    kid: Schema = {"type": "object", "properties": {"kid": {"type": "string"}}}
    jwk: Schema = {"$ref": "#/components/schemas/Jwk"}
    me["delete"] = _changing(_operation("Sign this device out", None))
    bike = _operation("One bike: the fold of its entries", {"type": "object"})
    bike["parameters"] = [{"name": "id", "in": "path", "required": True, "schema": {"type": "string", "format": "uuid"}}]
    live = _operation("Server-sent events: event seq, data its number", None)
    live["responses"]["200"] = {"description": "A stream", "content": {"text/event-stream": {"schema": {"type": "string"}}}}
    return {
        "/api/me": me,
        "/api/me/key": {"post": _changing(_operation("Make this device's public key known", kid, body=jwk))},
        "/api/bikes": {"get": _operation("A summary line for each bike", {"type": "array", "items": {"type": "object"}})},
        "/api/bikes/{id}": {"get": bike},
        "/api/live": {"get": live},
        "/api/health": {"get": _operation("Whether the server is well", {"type": "object"}, open_to_all=True)},
    }


def _people() -> Schema:
    people = {"type": "array", "items": {"$ref": "#/components/schemas/Person"}}
    add = _operation("Add a person", {"$ref": "#/components/schemas/Person"}, body={"$ref": "#/components/schemas/NewPerson"})
    add["responses"]["201"] = add["responses"].pop("200")
    invite = _operation("A one-time pairing code for a person", {"$ref": "#/components/schemas/Invited"})
    invite["parameters"] = [{"name": "id", "in": "path", "required": True, "schema": {"type": "string", "format": "uuid"}}]
    asked = {"application/json": {"schema": {"$ref": "#/components/schemas/Invitation"}}}
    invite["requestBody"] = {"required": False, "content": asked}
    shut_out = _operation("Shut a device out", None)
    shut_out["parameters"] = invite["parameters"]
    listed = {"type": "array", "items": {"$ref": "#/components/schemas/Listed"}}
    me = {"$ref": "#/components/schemas/Me"}
    login = _operation(
        "Let an owner's machine in by passphrase", me, open_to_all=True, body={"$ref": "#/components/schemas/Login"}
    )
    credential: Schema = {"$ref": "#/components/schemas/Made"}
    shown: Schema = {"$ref": "#/components/schemas/Shown"}
    return {
        "/api/devices": {"get": _operation("The devices, when last seen and what waits on them", listed)},
        "/api/devices/{id}/revoke": {"post": _changing(shut_out)},
        "/api/passkeys": {"post": _changing(_operation("Keep an owner's passkey", None, body=credential))},
        "/api/passkeys/begin": {"post": _changing(_operation("Begin to make a passkey", {"type": "object"}))},
        "/api/login/passkey/begin": {"post": _changing(_operation("Begin to show a passkey", {"type": "object"}, True))},
        "/api/login/passkey": {"post": _changing(_operation("Let an owner's machine in by passkey", me, True, shown))},
        "/api/login": {"post": _changing(login)},
        "/api/people": {"get": _operation("The people of the workshop", people), "post": _changing(add)},
        "/api/people/{id}/invite": {"post": _changing(invite)},
    }


def _photos() -> Schema:
    binary = {media_type: {"schema": {"type": "string", "format": "binary"}} for media_type, _ in FORMATS.values()}
    outcome = {"type": "object", "properties": {"outcome": {"enum": ["stored", "known"]}}}
    give = _operation("Take a photo that an entry names", outcome)
    give["requestBody"] = {"required": True, "description": f"At most {MOST_PHOTO_BYTES} bytes.", "content": binary}
    see = _operation("A photo's bytes", None)
    see["responses"]["200"] = {"description": "The photo", "content": binary}
    del see["responses"]["204"]
    hash = {"name": "sha256", "in": "path", "required": True, "schema": {"type": "string", "pattern": "^[0-9a-f]{64}$"}}
    see["parameters"] = give["parameters"] = [hash]
    return {"/api/photos/{sha256}": {"get": see, "put": _changing(give)}}


def _operation(summary: str, answer: Schema | None, open_to_all: bool = False, body: Schema | None = None) -> Schema:
    fault = {
        "description": "A problem (RFC 9457)",
        "content": {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}},
    }
    good: Schema = {"description": "Done"}
    if answer is not None:
        good["content"] = {"application/json": {"schema": answer}}
    operation: Schema = {
        "summary": summary,
        "security": [] if open_to_all else [{"device": []}],
        "responses": {"204" if answer is None else "200": good, "4XX": fault, "5XX": fault},
    }
    if body is not None:
        operation["requestBody"] = {
            "required": True,
            "description": f"At most {MOST_BODY} bytes unless said otherwise.",
            "content": {"application/json": {"schema": body}},
        }
    return operation


def _changing(operation: Schema) -> Schema:
    header = {"name": PROTOCOL_HEADER, "in": "header", "required": True, "schema": {"const": PROTOCOL}}
    return {**operation, "parameters": [header, *operation.get("parameters", [])]}


def _query(name: str, schema: Schema) -> Schema:
    return {"name": name, "in": "query", "required": False, "schema": schema}


def _components() -> Schema:
    _, made = msgspec.json.schema_components(
        [
            Envelope,
            Pushed,
            Pairing,
            Jwk,
            Head,
            Person,
            NewPerson,
            Invited,
            Invitation,
            Listed,
            Login,
            Made,
            Shown,
            *BODIES.values(),
            DescribeEvent,
        ],
        ref_template="#/components/schemas/{name}",
    )
    text = {"type": "string"}
    wrong = {"type": "object", "properties": {"field": text, "given": text, "wanted": text}}
    named = {"type": "object", "properties": {"id": text, "name": text}}
    server = {"type": "object", "properties": {"version": text, "protocol": {"type": "integer"}, "workshop": text}}
    made["Problem"] = {
        "type": "object",
        "required": ["type", "title", "status", "detail", "errors"],
        "properties": {
            "type": text,
            "title": text,
            "status": {"type": "integer"},
            "detail": text,
            "errors": {"type": "array", "items": wrong},
        },
    }
    made["Me"] = {
        "type": "object",
        "properties": {"device": named, "person": {"$ref": "#/components/schemas/Person"}, "server": server},
    }
    measure = {"anyOf": [{"type": "number"}, {"type": "string", "maxLength": 60}]}
    made["Measured"] = {
        "type": "object",
        "additionalProperties": False,
        "required": ["value", "plus_minus"],
        "properties": {"value": measure, "plus_minus": measure},
    }
    made["Envelope"]["properties"]["body"] = {
        "anyOf": [{"$ref": f"#/components/schemas/{b.__name__}"} for b in BODIES.values()]
    }
    made["Envelope"]["properties"]["kind"] = {"enum": list(BODIES)}
    return _ends(made)


def _ends(schema: Any) -> Any:
    r"""Patterns as the schema's own dialect writes them: its `$` is what Python's `\Z` is."""
    if isinstance(schema, dict):
        return {
            k: v.replace("\\Z", "$") if k == "pattern" and isinstance(v, str) else _ends(v)
            for k, v in schema.items()  # pyright: ignore[reportUnknownVariableType]
        }
    if isinstance(schema, list):
        return [_ends(one) for one in schema]  # pyright: ignore[reportUnknownVariableType]
    return schema
