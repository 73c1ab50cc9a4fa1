"""In what coding an answer goes out: as the other end unpacks it (RFC 9110, 12.5.3)."""

import re
from functools import lru_cache

# The mark of a route that packs its answers itself; the app leaves those as they are.
PACKS_ITSELF = "packs-itself"

_NO_WEIGHT = re.compile(r"q=0(\.0*)?")


@lru_cache(maxsize=32)
def codings(accepted: str) -> frozenset[str]:
    """What the other end unpacks, out of its Accept-Encoding. Browsers say only a few things there."""
    named = (one.partition(";") for one in accepted.lower().split(","))
    return frozenset(name.strip() for name, _, weight in named if not _NO_WEIGHT.fullmatch(weight.strip()))
