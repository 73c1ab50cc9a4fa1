"""HTTPS on a workshop's own network, tried with real clients: `ssl` and httpx with the made authority as their only one."""

import re
import socket
import ssl
import subprocess
import threading
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from ipaddress import ip_address
from pathlib import Path

import httpx
import pytest
from cryptography import x509
from cryptography.x509.oid import ExtendedKeyUsageOID

from pinchbolt.lan.authority import SERVER_DAYS, Authority
from pinchbolt.lan.renewal import Renewal
from tests.server import running

BENCH = ip_address("192.168.7.20")


@pytest.fixture
def authority(tmp_path: Path) -> Authority:
    made = Authority(tmp_path / "lan", "bench", "Alder Bench")
    made.renew(["bench.local", "bench"], [BENCH])
    return made


class Listening:
    """A TLS server that says its certificate and nothing else; `context` is what a renewal reloads."""

    def __init__(self, authority: Authority) -> None:
        self.context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        self.context.load_cert_chain(authority.files.certificate, authority.files.key)
        self._bound = socket.create_server(("127.0.0.1", 0))
        self.port = self._bound.getsockname()[1]
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    def _run(self) -> None:
        while True:
            try:
                line, _ = self._bound.accept()
            except OSError:
                return
            try:
                with self.context.wrap_socket(line, server_side=True) as tls:
                    tls.recv(1)
            except OSError:
                line.close()

    def close(self) -> None:
        self._bound.shutdown(socket.SHUT_RDWR)
        self._bound.close()
        self._thread.join(timeout=5)

    def certificate(self, trusted: Path, name: str) -> bytes:
        """The DER certificate a client gets that trusts only `trusted` and believes to speak with `name`."""
        client = ssl.create_default_context(cafile=str(trusted))
        with socket.create_connection(("127.0.0.1", self.port), timeout=10) as line, client.wrap_socket(
            line, server_hostname=name
        ) as tls:  # fmt: skip
            held = tls.getpeercert(binary_form=True)
            assert held is not None
            return held


@pytest.fixture
def listening(authority: Authority) -> Iterator[Listening]:
    made = Listening(authority)
    yield made
    made.close()


@pytest.mark.parametrize("name", ["bench.local", "bench", "192.168.7.20", "localhost", "127.0.0.1"])
def test_a_client_that_trusts_the_authority_is_let_to_each_name_and_address(
    authority: Authority, listening: Listening, name: str
):
    assert listening.certificate(authority.files.authority, name)


@pytest.mark.parametrize("name", ["other.local", "bench.example", "192.168.7.21", "8.8.8.8"])
def test_any_other_host_is_refused_by_the_client(authority: Authority, listening: Listening, name: str):
    with pytest.raises(ssl.SSLCertVerificationError, match=r"mismatch|not valid for"):
        listening.certificate(authority.files.authority, name)


def test_a_client_that_does_not_trust_the_authority_refuses(listening: Listening, tmp_path: Path):
    stranger = Authority(tmp_path / "other", "bench")
    with pytest.raises(ssl.SSLCertVerificationError, match="verify failed"):
        listening.certificate(stranger.files.authority, "bench.local")


def test_the_authority_cannot_speak_for_the_internet(authority: Authority, tmp_path: Path):
    """Signed all the same, as a thief of the key would: the client sees the constraint broken (RFC 5280, 4.2.1.10)."""
    assert not authority.speaks_for("bank.example")
    authority.speaks_for = lambda name: True  # type: ignore[method-assign]
    assert authority.renew(["bank.example"], [BENCH])
    forged = Listening(authority)
    try:
        with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
            forged.certificate(authority.files.authority, "bank.example")
    finally:
        forged.close()


def test_openssl_finds_the_chain_good_for_a_server(authority: Authority):
    """OpenSSL's own verifier, in strict mode (RFC 5280's musts), as an outside judge."""
    call = ["openssl", "verify", "-x509_strict", "-purpose", "sslserver", "-CAfile"]
    done = subprocess.run(
        [*call, str(authority.files.authority), str(authority.files.certificate)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr + done.stdout


def test_what_phones_ask_of_a_certificate(authority: Authority):
    held = x509.load_pem_x509_certificate(authority.files.certificate.read_bytes())
    assert held.not_valid_after_utc - held.not_valid_before_utc <= timedelta(days=SERVER_DAYS)
    used = held.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(used) == [ExtendedKeyUsageOID.SERVER_AUTH]
    assert held.extensions.get_extension_for_class(x509.BasicConstraints).value.ca is False


def test_keys_are_the_owner_s_alone(authority: Authority):
    for file in authority.files:
        assert file.stat().st_mode & 0o077 == 0, file
    assert authority.files.authority.parent.stat().st_mode & 0o077 == 0


def test_it_is_renewed_in_time_and_not_before(authority: Authority):
    names, addresses = ["bench.local", "bench"], [BENCH]
    today = datetime.now(UTC)
    assert not authority.renew(names, addresses)
    assert not authority.renew(names, addresses, today + timedelta(days=SERVER_DAYS - 35))
    assert authority.renew(names, addresses, today + timedelta(days=SERVER_DAYS - 25))
    assert not authority.renew(names, addresses, today + timedelta(days=SERVER_DAYS + 200))


def test_a_new_address_brings_a_new_certificate_and_a_lost_one_does_not(authority: Authority):
    assert authority.renew(["bench.local"], [BENCH, ip_address("10.0.0.3")])
    assert not authority.renew(["bench.local"], [ip_address("10.0.0.3")])
    assert not authority.renew(["bench.local"], [ip_address("8.8.8.8")]), "not an address of a private network"


def test_a_running_server_takes_the_new_certificate_without_a_stop(authority: Authority, listening: Listening):
    before = listening.certificate(authority.files.authority, "bench.local")
    renewal = Renewal(authority, listening.context, lambda: ["bench.local", "new-name.local"])
    assert renewal.look()
    after = listening.certificate(authority.files.authority, "new-name.local")
    assert before != after
    assert not renewal.look()


def test_the_renewal_goes_on_by_itself(authority: Authority, listening: Listening):
    before = listening.certificate(authority.files.authority, "bench.local")
    renewal = Renewal(authority, listening.context, lambda: ["bench.local", "later.local"], every=0.02)
    renewal.start()
    threading.Event().wait(0.5)
    renewal.stop()
    assert listening.certificate(authority.files.authority, "later.local") != before


def test_it_outlives_a_restart(authority: Authority):
    again = Authority(authority.files.authority.parent, "bench")
    assert again.fingerprint == authority.fingerprint
    assert not again.renew(["bench.local", "bench"], [BENCH])


def test_serving_with_lan(tmp_path: Path):
    """The whole of it: the page in the clear gives the certificate, and with it the phone pairs over HTTPS."""
    data = tmp_path / "data"
    process = running.popen("serve", "--data", str(data), "--port", "0", "--trust-port", "0", "--lan", "--host", "127.0.0.1")
    try:
        assert process.stdout is not None
        said = ""
        for line in process.stdout:
            said += line
            if "/pair#" in line:
                break
        page, printed = re.search(r"once: (http://\S+)\s.*?\n\s+([0-9A-F:]{95})", said, re.DOTALL).groups()  # type: ignore[union-attr]
        url, code = re.search(r"(https://\S+)/pair#(\S+)", said).groups()  # type: ignore[union-attr]

        with httpx.Client(transport=httpx.HTTPTransport(retries=20, verify=False), timeout=30) as plain:
            shown = plain.get(page)
            assert shown.status_code == 200
            assert printed.replace(":", "") in re.sub(r"<br>| |\n", "", shown.text)
            assert "set-cookie" not in shown.headers
            given = plain.get(page + "pinchbolt-authority.crt")
            assert given.headers["content-type"].startswith("application/x-x509-ca-cert")
            assert sha256(given.content).hexdigest().upper() == printed.replace(":", "")
            for other in ("authority.key", "lan/authority.key", "api/health", "..%2fauthority.key", "server.key"):
                assert plain.get(page + other).status_code == 404, other

        trust = ssl.create_default_context(cadata=given.content)
        line = httpx.HTTPTransport(verify=trust, retries=20)
        with httpx.Client(base_url=url, transport=line, headers=running.PROTOCOL, timeout=30) as phone:
            paired = phone.post("/api/pair", json={"code": code, "device": "a0000000-0000-4000-8000-000000000001", "name": "x"})
            assert paired.status_code == 200
            cookie = paired.headers["set-cookie"]
            assert cookie.startswith("__Host-pinchbolt=")
            for flag in ("Secure", "HttpOnly", "SameSite=strict", "Path=/"):
                assert flag.lower() in cookie.lower()
            assert "domain" not in cookie.lower()
            assert paired.headers["strict-transport-security"].startswith("max-age=")
            assert phone.get("/api/me").json()["person"]["role"] == "owner"
            for other in ("/lan/authority.key", "/authority.key", "/..%2f..%2flan/authority.key"):
                assert "PRIVATE KEY" not in phone.get(other).text
        with pytest.raises(httpx.ConnectError, match="verify failed"):
            httpx.get(url + "/api/health", timeout=30)
        with pytest.raises(httpx.HTTPError):
            httpx.get(url.replace("https", "http") + "/api/health", timeout=30)
    finally:
        process.terminate()
        assert process.wait(timeout=20) in (0, -15)
        process.stdout.close()  # type: ignore[union-attr]
