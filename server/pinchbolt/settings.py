"""The settings of the server: one list, from which come the environment, the command line and the reference."""

import os
import re
from collections.abc import Callable, Mapping
from ipaddress import ip_address
from pathlib import Path
from typing import NamedTuple

from pinchbolt.kernel.errors import InputError, problem

PREFIX = "PINCHBOLT_"
YES = "yes"

_DNS_NAME = re.compile(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?(\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)*\Z")


class Setting(NamedTuple):
    """One setting. `wanted` says in words what `good` accepts."""

    name: str
    default: str
    help: str
    wanted: str
    good: Callable[[str], bool]
    flag: bool = False

    @property
    def env(self) -> str:
        return PREFIX + self.name.upper()

    @property
    def option(self) -> str:
        return "--" + self.name.replace("_", "-")


def _is_port(text: str) -> bool:
    return text.isascii() and text.isdigit() and 0 <= int(text) <= 65535


def _is_address(text: str) -> bool:
    try:
        ip_address(text)
    except ValueError:
        return text == "localhost"
    return True


def _are_addresses(text: str) -> bool:
    return all(_is_address(one.strip()) for one in text.split(","))


def _is_file(text: str) -> bool:
    return not text or Path(text).is_file()


def _is_flag(text: str) -> bool:
    return text in ("", YES)


def _are_days(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= 5


def _is_level(text: str) -> bool:
    return text in ("error", "warning", "info")


def _are_names(text: str) -> bool:
    return not text or all(_DNS_NAME.match(one.strip()) for one in text.split(","))


def _is_database(text: str) -> bool:
    scheme, found, rest = text.partition("://")
    return not found or (scheme in ("postgresql", "postgres") and bool(rest))


def _is_loopback(host: str) -> bool:
    return host == "localhost" or ip_address(host).is_loopback


def _is_name(text: str) -> bool:
    return 0 < len(text.strip()) <= 80 and text.isprintable()


def _default_data() -> str:
    home = os.environ.get("XDG_DATA_HOME") or str(Path.home() / ".local" / "share")
    return str(Path(home) / "pinchbolt")


SETTINGS = (
    Setting(
        "data",
        _default_data(),
        "Folder of the photos, and of the database unless that is elsewhere.",
        "a folder, or a place for one",
        bool,
    ),
    Setting(
        "database",
        "",
        "The record: a file for SQLite, or postgresql://... for a PostgreSQL server; none: a file in the folder data.",
        "a file, or postgresql://USER@HOST/NAME",
        _is_database,
    ),
    Setting("host", "127.0.0.1", "Address to listen on.", "an IP address or localhost", _is_address),
    Setting("port", "8000", "Port to listen on.", "a whole number from 0 to 65535", _is_port),
    Setting("workshop", "Workshop", "Name of the workshop.", "a name of 1 to 80 letters", _is_name),
    Setting("proxies", "127.0.0.1", "Addresses of reverse proxies to trust.", "IP addresses, commas between", _are_addresses),
    Setting("certificate", "", "File of the TLS certificate, for HTTPS without a proxy.", "a file that is there", _is_file),
    Setting("key", "", "File of the TLS certificate's key.", "a file that is there", _is_file),
    Setting(
        "lan",
        "",
        "HTTPS on the workshop's own network, with an authority and a certificate made here; listens on every address unless "
        "host is given.",
        "yes, or nothing",
        _is_flag,
        flag=True,
    ),
    Setting(
        "names", "", "More names this machine is reached by, for lan.", "DNS names in lower case, commas between", _are_names
    ),
    Setting(
        "trust_port",
        "8001",
        "With lan: port of the plain page that gives the certificate.",
        "a whole number from 0 to 65535",
        _is_port,
    ),
    Setting(
        "plain_http_anyway",
        "",
        "Answer without HTTPS beyond this machine; for a proxy in another container that does the HTTPS.",
        "yes, or nothing",
        _is_flag,
        flag=True,
    ),
    Setting(
        "retention",
        "0",
        "Days after which the names of riders and checkers no longer heard of are erased; 0 keeps them.",
        "a whole number of days from 0 to 99999",
        _are_days,
    ),
    Setting(
        "log", "warning", "What the log tells: error, warning, or info for every request.", "error, warning or info", _is_level
    ),
)


class Settings(NamedTuple):
    """The settings as read."""

    data: Path
    host: str
    port: int
    workshop: str
    proxies: str
    certificate: str
    key: str
    lan: bool = False
    names: tuple[str, ...] = ()
    trust_port: int = 8001
    retention: int = 0
    log: str = "warning"
    database: str = ""

    @property
    def scheme(self) -> str:
        return "https" if self.certificate or self.lan else "http"


def read_settings(environ: Mapping[str, str], options: Mapping[str, str | None] | None = None) -> Settings:
    """Settings from options, else from the environment, else their defaults.

    Raises InputError naming each one that is wrong, and each PINCHBOLT_ variable that is none of them.
    """
    known = {setting.env for setting in SETTINGS}
    problems = [
        problem(name, environ[name], "one of " + ", ".join(sorted(known)))
        for name in sorted(environ)
        if name.startswith(PREFIX) and name not in known
    ]
    values: dict[str, str] = {}
    for setting in SETTINGS:
        chosen = (options or {}).get(setting.name)
        field = setting.option if chosen is not None else setting.env
        value = chosen if chosen is not None else environ.get(setting.env, setting.default)
        if not setting.good(value):
            problems.append(problem(field, value or "nothing", setting.wanted))
        values[setting.name] = value
    if bool(values["certificate"]) != bool(values["key"]):
        problems.append(problem("certificate", "one of certificate and key", "both of them, or neither"))
    lan = values["lan"] == YES
    if lan and values["certificate"]:
        problems.append(problem("certificate", "both lan and certificate", "one of them"))
    if lan and (options or {}).get("host") is None and "PINCHBOLT_HOST" not in environ:
        values["host"] = "0.0.0.0"
    plain = not (lan or values["certificate"] or values["plain_http_anyway"])
    if not problems and plain and not _is_loopback(values["host"]):
        wanted = "127.0.0.1 behind a proxy, or HTTPS by lan or certificate; or plain_http_anyway, said in so many words"
        problems.append(problem("host", values["host"] + " without HTTPS", wanted))
    if problems:
        raise InputError(problems)
    return Settings(
        data=Path(values["data"]),
        host=values["host"],
        port=int(values["port"]),
        workshop=values["workshop"],
        proxies=values["proxies"],
        certificate=values["certificate"],
        key=values["key"],
        lan=lan,
        names=tuple(name.strip() for name in values["names"].split(",") if name.strip()),
        trust_port=int(values["trust_port"]),
        retention=int(values["retention"]),
        log=values["log"],
        database=values["database"],
    )
