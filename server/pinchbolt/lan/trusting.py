"""The one page served without HTTPS on a workshop's network: the authority's certificate, and how a phone comes to trust it.

It answers nothing else, sets no cookie, takes no input and knows nothing of the record.
"""

from html import escape

from litestar import Litestar, Response, get
from litestar.params import FromPath
from litestar.types import ASGIApp

from pinchbolt.api.frame import HEADERS
from pinchbolt.lan.authority import Authority

CERTIFICATE = "/pinchbolt-authority.crt"

PLATFORMS = (
    (
        "Phones and tablets that install profiles",
        (
            "Open this page in the phone's own browser and tap the certificate above. Allow the profile to be downloaded.",
            "Settings: “Profile Downloaded” near the top. Compare the SHA-256 fingerprint under “More Details”, then Install.",
            "Settings, General, About, Certificate Trust Settings: switch this authority on. Nothing is trusted without it.",
        ),
    ),
    (
        "Phones that keep certificates under Security",
        (
            "Tap the certificate above to save it.",
            "Settings: look for “CA certificate” (often under Security, More, Install from storage). "
            "The phone warns that it will trust this authority; that is what is meant.",
            "Choose the saved file, then look it up under “User credentials” and compare the SHA-256 fingerprint.",
        ),
    ),
    (
        "Computer",
        (
            "Save the certificate above.",
            "Add it to the system's (or the browser's own) list of authorities, for identifying websites only.",
            "Compare the SHA-256 fingerprint in the certificate's details.",
        ),
    ),
)
STEPS_NOTE = "Words and places differ between versions: search the phone's settings for “certificate”."


def page(authority: Authority, workshop: str, address: str) -> str:
    """The page as HTML; everything that is not fixed is escaped."""
    steps = "".join(
        f"<h2>{escape(platform)}</h2><ol>{''.join(f'<li>{escape(step)}</li>' for step in steps)}</ol>"
        for platform, steps in PLATFORMS
    )
    groups = authority.fingerprint.split(":")
    shown = "<br>".join(" ".join(groups[i : i + 8]) for i in range(0, len(groups), 8))
    return f"""<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Trust {escape(workshop)}</title>
<h1>Let this phone trust {escape(workshop)}</h1>
<p>Do this once, on the workshop's own network. Then the record is at <a href="{escape(address)}">{escape(address)}</a>.</p>
<p><a href="{CERTIFICATE}">The workshop's certificate</a></p>
<h2>Compare before you trust</h2>
<p>The SHA-256 fingerprint on the phone must be the one <strong>on the server's own screen</strong>, every pair of it.
This page came without protection, so the figure here proves nothing by itself:</p>
<p><code>{shown}</code></p>
<p>If they differ, stop: somebody stands between the phone and the server.</p>
{steps}
<p>{escape(STEPS_NOTE)}</p>
<p>What is trusted: addresses of private networks and names like <code>.local</code>, nothing on the internet.
To take it back, remove the certificate where you added it.</p>
</html>
"""


def create_page(authority: Authority, workshop: str, address: str) -> ASGIApp:
    """The application of that page."""
    told = page(authority, workshop, address).encode()
    der = authority.der
    headers = {**HEADERS, "Cache-Control": "no-store", "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'"}

    @get(["/", "/{path:path}"], sync_to_thread=False)
    def trust(path: FromPath[str] = "") -> Response[bytes]:
        if path == CERTIFICATE:
            shown = {**headers, "Content-Disposition": 'attachment; filename="pinchbolt-authority.crt"'}
            return Response(der, media_type="application/x-x509-ca-cert", headers=shown)
        if path not in ("", "/"):
            return Response(b"There is nothing at this address.", status_code=404, media_type="text/plain", headers=headers)
        return Response(told, media_type="text/html", headers=headers)

    return Litestar([trust], openapi_config=None, request_max_body_size=1024)
