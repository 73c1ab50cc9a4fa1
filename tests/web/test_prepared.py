"""The second start of the engine goes on from what the first one kept, comes to the same, and trusts nothing that was touched.

The figure is held against CPython, which runs the kernel's sources and knows nothing of what a phone keeps.
"""

import json

import pytest
from playwright.sync_api import Browser, Page, Request

from pinchbolt.kernel.calls import call
from pinchbolt.kernel.catalogue import find
from tests.web.phone import comes_to, context, tell
from tests.web.workshop import ServedWorkshop

CUT = find("steerer-cut")
STORE = "pinchbolt-prepared"
KEPT = f"caches.open('{STORE}').then((c) => c.keys()).then((all) => all.map((one) => new URL(one.url).pathname).sort())"
TOUCHED = f"""(async () => {{
  const store = await caches.open('{STORE}');
  for (const name of await store.keys()) {{
    const kept = await store.match(name);
    const bytes = new Uint8Array(await kept.arrayBuffer());
    bytes[bytes.length >> 1] ^= 1;
    await store.put(name, new Response(bytes, {{ headers: kept.headers }}));
  }}
}})()"""


def cut(page: Page, url: str) -> object:
    """A steerer cut asked of the phone's engine, started anew."""
    page.goto(url + "/tests.html")
    page.get_by_text("door open").wait_for()
    assert len(tell(page, "door.kernel.declarations()")) == len(json.loads(call('{"do": "declarations"}'))["ok"])
    return tell(page, f"door.kernel.run('steerer-cut', {json.dumps(CUT.example)})")


def test_the_second_start_takes_up_what_the_first_one_kept(browser: Browser, workshop: ServedWorkshop) -> None:
    made = context(browser)
    page = made.new_page()
    compiled: list[str] = []

    def note(request: Request) -> None:
        if "/kernel-" in request.url and request.url.endswith(".bin"):
            compiled.append(request.url)

    made.on("request", note)
    wanted = pytest.approx(CUT.run(CUT.example)["outputs"])
    assert cut(page, workshop.url)["outputs"] == wanted  # type: ignore[index]
    assert len(compiled) == 1
    comes_to(page, KEPT, ["/prepared/declarations", "/prepared/engine"])

    assert cut(page, workshop.url)["outputs"] == wanted  # type: ignore[index]
    assert len(compiled) == 1, "the kernel was imported again"

    tell(page, TOUCHED)
    assert cut(page, workshop.url)["outputs"] == wanted  # type: ignore[index]
    assert len(compiled) == 2, "a memory that was touched was taken up"
    made.close()
