"""The settings of the server: one list, from which come the environment, the command line and the reference."""

import os
from collections.abc import Callable, Mapping
from ipaddress import ip_address
from pathlib import Path
from typing import NamedTuple

from pinchbolt.kernel.errors import InputError, problem

PREFIX = "PINCHBOLT_"


class Setting(NamedTuple):
    """One setting. `wanted` says in words what `good` accepts."""

    name: str
    default: str
    help: str
    wanted: str
    good: Callable[[str], bool]

    @property
    def env(self) -> str:
        return PREFIX + self.name.upper()

    @property
    def option(self) -> str:
        return "--" + self.name


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


def _is_name(text: str) -> bool:
    return 0 < len(text.strip()) <= 80 and text.isprintable()


def _default_data() -> str:
    home = os.environ.get("XDG_DATA_HOME") or str(Path.home() / ".local" / "share")
    return str(Path(home) / "pinchbolt")


SETTINGS = (
    Setting("data", _default_data(), "Folder of the database.", "a folder, or a place for one", bool),
    Setting("host", "127.0.0.1", "Address to listen on.", "an IP address or localhost", _is_address),
    Setting("port", "8000", "Port to listen on.", "a whole number from 0 to 65535", _is_port),
    Setting("workshop", "Workshop", "Name of the workshop.", "a name of 1 to 80 letters", _is_name),
    Setting("proxies", "127.0.0.1", "Addresses of reverse proxies to trust.", "IP addresses, commas between", _are_addresses),
    Setting("certificate", "", "File of the TLS certificate, for HTTPS without a proxy.", "a file that is there", _is_file),
    Setting("key", "", "File of the TLS certificate's key.", "a file that is there", _is_file),
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

    @property
    def scheme(self) -> str:
        return "https" if self.certificate else "http"


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
    )
