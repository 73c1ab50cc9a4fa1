"""Under which addresses and names this machine is reached."""

import re
import socket
from ipaddress import IPv4Address, IPv6Address, ip_address

Address = IPv4Address | IPv6Address

_LABEL = re.compile(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?\Z")
# Nothing is sent to these: asking for the way there tells the address this machine would use.
_ROUTES = ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1"))


def host_name() -> str:
    """The machine's own name without its domain; empty when it is none that a certificate can carry."""
    name = socket.gethostname().split(".")[0].lower()
    return name if _LABEL.match(name) else ""


def own_names() -> list[str]:
    """The names other machines of the network know this one by: its own, and that in `.local` (RFC 6762)."""
    name = host_name()
    return [f"{name}.local", name] if name else []


def own_addresses() -> list[Address]:
    """This machine's addresses on its networks, the one of the usual way out first; loopback left out."""
    found: list[Address] = []
    for family, elsewhere in _ROUTES:
        with socket.socket(family, socket.SOCK_DGRAM) as asked:
            try:
                asked.connect((elsewhere, 9))
                found.append(_plain(asked.getsockname()[0]))
            except OSError:
                continue
    try:
        listed = socket.getaddrinfo(socket.gethostname(), None, proto=socket.IPPROTO_TCP)
    except OSError:
        listed = []
    found += [_plain(str(entry[4][0])) for entry in listed]
    usable = [a for a in found if not (a.is_loopback or a.is_unspecified or a.is_link_local)]
    return list(dict.fromkeys(usable))


def _plain(text: str) -> Address:
    return ip_address(text.split("%", maxsplit=1)[0])
