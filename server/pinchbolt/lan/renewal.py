"""Renewing the server's certificate while it runs: looked at once an hour, and new lines get the new one, nobody is cut off."""

import logging
import ssl
import threading
from collections.abc import Callable

from pinchbolt.lan.addresses import own_addresses, own_names
from pinchbolt.lan.authority import Authority

EVERY_SECONDS = 3600.0

log = logging.getLogger("pinchbolt.lan")


class Renewal:
    """Keeps the certificate of a running server's TLS context good. `names` says what it must carry beside the addresses."""

    def __init__(
        self,
        authority: Authority,
        context: ssl.SSLContext,
        names: Callable[[], list[str]] = own_names,
        every: float = EVERY_SECONDS,
    ) -> None:
        self._authority = authority
        self._context = context
        self._every = every
        self._names = names
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._run, name="renewal", daemon=True)

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        self._over.set()
        self._thread.join()

    def look(self) -> bool:
        """Renew when due. The machine's addresses are asked anew: a router may have given it another."""
        if not self._authority.renew(self._names(), own_addresses()):
            return False
        files = self._authority.files
        self._context.load_cert_chain(files.certificate, files.key)
        return True

    def _run(self) -> None:
        while not self._over.wait(self._every):
            try:
                self.look()
            except Exception:
                # A full disk today is no reason not to look again in an hour.
                log.exception("the certificate could not be renewed")
