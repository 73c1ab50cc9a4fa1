"""A joint on record is judged as the bike stands: what is marked on a part afterwards counts at once."""

from typing import Any

from playwright.sync_api import Locator, expect

from tests.web.checking import PATIENT
from tests.web.phone import Phone

BIKE = "bike/6b0f1f0e-5a38-4d0e-9a3e-0f6a6c9a7a02"
STEM = {"part": "0c6a58a5-0a6e-4e2b-8a53-0d0c7b1f7b03", "slot": "stem", "name": "stem 100"}
FACE_PLATE: dict[str, Any] = {"joint": "stem face plate", "applied": 5, "low": 4, "high": 6, "accuracy": 4, "usual": True}
ABOVE = "Above the limits of 3.20 to 4.00 N·m: loosen, look over part and bolt for damage"


def record(phone: Phone, *drafts: tuple[str, dict[str, Any]]) -> None:
    phone.open()
    phone.do("record.write", [{"subject": BIKE, "kind": kind, "body": body} for kind, body in drafts])


def row(phone: Phone) -> Locator:
    phone.page.goto(f"{phone.url}/{BIKE}/torque")
    found = phone.page.locator(".plan-line", has_text="Stem face plate")
    expect(found).to_be_visible(timeout=PATIENT)
    return found


def test_a_joint_beyond_a_limit_marked_afterwards_is_not_ticked(mine: Phone) -> None:
    page = mine.page
    record(mine, ("describe", {"name": "Plover"}), ("part-fit", STEM), ("torque", FACE_PLATE))
    fine = row(mine)
    expect(fine.locator(".step-sign-done")).to_be_visible()
    expect(fine).not_to_contain_text("limits")

    record(mine, ("part-fit", STEM | {"markings": {"face_plate_limit": 4}}))
    above = row(mine)
    expect(above).to_contain_text(ABOVE, timeout=PATIENT)
    expect(above.locator(".step-sign-done")).to_have_count(0)
    expect(above.locator(".level-stop")).to_be_visible()
    expect(above).not_to_contain_text("May be too tight")
    page.goto(f"{mine.url}/{BIKE}/hand-over")
    told = page.locator(".hand-over-table tr", has_text="Stem face plate")
    expect(told).to_contain_text(ABOVE, timeout=PATIENT)
    expect(told.locator("td").first).to_have_text("3.2–4")

    # Tightened anew to what is marked, it is done.
    record(mine, ("torque", FACE_PLATE | {"applied": 3.6, "low": 3.2, "high": 4, "usual": False}))
    expect(row(mine).locator(".step-sign-done")).to_be_visible(timeout=PATIENT)


def test_a_limit_that_was_wider_afterwards_clears_nothing(mine: Phone) -> None:
    """What it was tightened to counts on: a part swapped for a stronger one does not mend the joint."""
    record(mine, ("describe", {"name": "Plover"}), ("part-fit", STEM | {"markings": {"face_plate_limit": 8}}))
    record(mine, ("torque", FACE_PLATE | {"applied": 7}))
    expect(row(mine)).to_contain_text("Above the limits of 4.00 to 6.00 N·m", timeout=PATIENT)
