"""The state machine of sync: phones, a workshop, and everything that can go wrong between them."""

import json
import shutil
import tempfile
from datetime import timedelta
from pathlib import Path
from typing import Any

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule

from pinchbolt.access import rules
from tests.server import hands
from tests.server.hands import FERN, GAPS_DAY, SLATE
from tests.sync.phones import Hand, House, Phone, Side, workday

HANDS = (
    Hand(hands.JUNO, "Juno", "owner", hands.BENCH),
    Hand(hands.BAS, "Bas", "mechanic", hands.BAS_PHONE),
    Hand(hands.IMRE, "Imre", "rider", hands.IMRE_PHONE),
    Hand(hands.ODILE, "Odile", "rider", hands.ODILE_PHONE),
    Hand(hands.ILKA, "Ilka", "checker", hands.ILKA_PHONE),
)
EVERY = range(len(HANDS))
BIKES = (FERN, SLATE)
# What becomes of an answer that the phone does not hear, or must not take for one.
UNHEARD = ("reply lost", "closed", "cut short", "a stranger answers")
RIDERS = (hands.IMRE, hands.ODILE, None)
# Most rounds that a healed network needs: a grant that was lost with a restore must come back before its rider's entries can.
ROUNDS = 6


def _memory() -> str | None:
    """A folder in memory where there is one: what is tried here is the order of things, not the disk."""
    shm = Path("/dev/shm")
    return str(shm) if shm.is_dir() else None


class Tally:
    """What a run came to, over all its schedules."""

    def __init__(self) -> None:
        self.figures = dict.fromkeys(
            ("schedules", "kills", "restores", "written", "found", "duplicates", "refused", "unaccounted"), 0
        )

    def add(self, name: str, many: int = 1) -> None:
        self.figures[name] += many


TALLY = Tally()


class SyncMachine(RuleBasedStateMachine):
    """Each run is one schedule; `teardown` heals everything and counts."""

    phones: list[Side]
    house: House

    def phone(self, hand: Hand) -> Side:
        """A new phone. Here it is a model of the format's page; the app's own queue takes its place in app_machine.py."""
        return Phone(hand)

    @initialize()
    def open(self) -> None:
        self.folder = Path(tempfile.mkdtemp(dir=_memory(), prefix="pinchbolt-"))
        self.house = House(self.folder, HANDS)
        self.phones = [self.phone(hand) for hand in HANDS]
        self.now = workday()
        self.cut_off: set[int] = set()
        # Requests that a network holds back: they arrive late, and nobody waits for their answer.
        self.air: list[tuple[Side, bytes]] = []
        self.saved: Path | None = None

    def _write(self, phone: Side, subject: str, kind: str, body: dict[str, Any]) -> None:
        self.now += timedelta(seconds=20)
        phone.write(subject, kind, body, self.now)

    @rule(
        who=st.sampled_from(EVERY),
        bike=st.sampled_from(BIKES),
        kinds=st.lists(st.sampled_from(("note", "adjust", "poison", "fault")), min_size=1, max_size=4),
    )
    def somebody_writes(self, who: int, bike: str, kinds: list[str]) -> None:
        bodies: dict[str, tuple[str, dict[str, Any]]] = {
            "note": ("note", {"text": f"Seen at {self.now:%H:%M}."}),
            "adjust": ("adjust", {"setting": "saddle_height", "unit": "mm", "to": 700 + self.now.minute}),
            "poison": ("weigh", {"mass": "light"}),
            "fault": ("fault", {"what": "bearing rough", "level": "care"}),
        }
        for kind in kinds:
            self._write(self.phones[who], bike, *bodies[kind])

    @rule(who=st.sampled_from((0, 1)), bike=st.sampled_from(BIKES), rider=st.sampled_from(RIDERS))
    def a_bike_changes_hands(self, who: int, bike: str, rider: str | None) -> None:
        self._write(self.phones[who], bike, "describe", {"name": bike[-4:], "rider": rider})

    @rule(who=st.sampled_from((0, 1)), bike=st.sampled_from(BIKES), plate=st.integers(1, 3))
    def a_bike_starts(self, who: int, bike: str, plate: int) -> None:
        self._write(self.phones[who], GAPS_DAY, "start", {"plate": str(plate), "bike": bike[5:]})

    @rule(who=st.sampled_from(EVERY), last=st.booleans())
    def somebody_takes_one_back(self, who: int, last: bool) -> None:
        phone = self.phones[who]
        if phone.own:
            entry = json.loads(phone.own[max(phone.own) if last else min(phone.own)])
            if entry["kind"] != "void":
                self._write(phone, entry["subject"], "void", {"entry": entry["id"], "reason": "mistyped"})

    @rule(who=st.sampled_from(EVERY), hours=st.sampled_from((-72, -3, 0, 5, 400)))
    def a_clock_jumps(self, who: int, hours: int) -> None:
        self.phones[who].skew = timedelta(hours=hours)

    @rule(who=st.sampled_from(EVERY))
    def the_signal_comes_or_goes(self, who: int) -> None:
        self.cut_off ^= {who}

    @rule(who=st.sampled_from(EVERY), most=st.integers(1, 6), fate=st.sampled_from(("good", "late", "twice", *UNHEARD)))
    def a_phone_sends(self, who: int, most: int, fate: str) -> None:
        phone = self.phones[who]
        if who not in self.cut_off:
            late = phone.sends(self.house, most, fate)
            if late is not None:
                self.air.append((phone, late))

    @rule(who=st.sampled_from(EVERY), data=st.data())
    def entries_come_out_of_order(self, who: int, data: st.DataObject) -> None:
        """Some of the queue in any order: gaps open and close."""
        phone = self.phones[who]
        waiting = [] if who in self.cut_off or phone.hand.device in self.house.shut_out else phone.queue()
        if waiting:
            phone.some_arrive(self.house, data.draw(st.lists(st.sampled_from(waiting), min_size=1, max_size=4)))

    @precondition(lambda self: self.air)
    @rule(data=st.data())
    def a_late_request_arrives(self, data: st.DataObject) -> None:
        phone, body = self.air.pop(data.draw(st.integers(0, len(self.air) - 1)))
        self.house.push(phone.hand, body)

    @rule(who=st.sampled_from(EVERY), limit=st.integers(1, 9), fate=st.sampled_from(("good", *UNHEARD)))
    def a_phone_fetches(self, who: int, limit: int, fate: str) -> None:
        if who not in self.cut_off:
            self.phones[who].fetches(self.house, limit, fate)

    @rule(who=st.sampled_from(EVERY))
    def the_app_is_closed_and_opened(self, who: int) -> None:
        self.phones[who].reopens()

    @rule(who=st.sampled_from(EVERY))
    def a_phone_is_shut_out_or_let_in(self, who: int) -> None:
        """A phone that was shut out drops what it fetched and what it sent: it cannot make an older backup good."""
        self.house.shut_out ^= {self.phones[who].hand.device}
        self.saved = None

    @rule()
    def the_server_is_killed(self) -> None:
        self.house.kill()
        TALLY.add("kills")
        held = set(self.house.held().values())
        for phone in self.phones:
            assert {phone.own[n] for n in phone.receipted} <= held, "stored, it was said, and gone with the kill"

    @precondition(lambda self: self.saved is None)
    @rule()
    def a_backup_is_made(self) -> None:
        self.saved = self.house.backup()

    @precondition(lambda self: self.saved is not None)
    @rule()
    def the_backup_is_restored(self) -> None:
        assert self.saved is not None
        self.house.restore(self.saved)
        for phone in self.phones:
            phone.receipted.clear()
        self.saved = None
        TALLY.add("restores")

    def teardown(self) -> None:
        if not hasattr(self, "house"):
            return
        try:
            self._heal()
            self._count()
        finally:
            self.house.close()
            shutil.rmtree(self.folder, ignore_errors=True)

    def _heal(self) -> None:
        self.house.shut_out.clear()
        for phone, body in self.air:
            self.house.push(phone.hand, body)
        before: object = None
        for _ in range(ROUNDS):
            # The owner comes last: what was granted meanwhile must reach phones that had fetched past it.
            for phone in reversed(self.phones):
                phone.heals(self.house)
            after = (self.house.held(), [sorted(p.log) for p in self.phones])
            if after == before:
                return
            before = after

    def _count(self) -> None:
        held = self.house.held()
        workshop = self.house.workshop
        assert list(workshop.log.verify()) == []
        states = {subject: self.house.state(subject) for subject in (*BIKES, GAPS_DAY)}
        kept = {raw for phone in self.phones for raw in phone.own.values()}
        assert set(held.values()) <= kept, "the log holds what nobody wrote"
        for phone in self.phones:
            assert not phone.queue()
            self._account(phone, held)
            sight = _seen(self.house, phone)
            for subject, state in states.items():
                if sight is None or subject in sight:
                    here = {id for id, (_, raw) in phone.log.items() if json.loads(raw)["subject"] == subject}
                    there = {id for id, raw in held.items() if json.loads(raw)["subject"] == subject}
                    assert here - phone.refused_ids() == there
                    assert phone.state(subject, phone.refused_ids()) == state
        TALLY.add("schedules")
        TALLY.add("found", len(held))

    def _account(self, phone: Side, held: dict[str, bytes]) -> None:
        """Every entry ever written is in the log exactly once, or refused with its reason and in the server's quarantine."""
        for n, raw in phone.own.items():
            stored = held.get(json.loads(raw)["id"]) == raw
            assert stored != (n in phone.refused), f"n {n} is neither in the log nor refused, or both"
            TALLY.add("written")
            if not stored:
                TALLY.add("refused")
                assert self.house.workshop.log.quarantined(phone.hand.device, n) == raw
        receipt = self.house.workshop.log.receipt(phone.hand.device)
        assert (receipt.n, receipt.missing) == (len(phone.own), [])


def _seen(house: House, phone: Side) -> set[str] | None:
    """The subjects this person sees now; None for all. Of a bike that was taken from them a rider keeps what they had."""
    if phone.hand.role in ("owner", "mechanic"):
        return None
    sight = rules.sight(phone.hand.role, phone.hand.person)
    return set(house.workshop.log.subjects("bike/", sight)) | set(house.workshop.log.subjects("event/", sight))
