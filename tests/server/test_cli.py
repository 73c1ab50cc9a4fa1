"""The command line: what it answers and how it ends (0 done, 1 found something wrong, 2 wrongly called)."""

import json
import os
import re
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from pinchbolt import __version__
from pinchbolt.cli import main
from pinchbolt.kernel.catalogue import all_calculations
from pinchbolt.workshop import DATABASE, Workshop
from pinchbolt.writer import Writer, batch
from tests.server import hands
from tests.server.hands import FERN, SLATE
from tests.server.running import SERVER


def run(*arguments: str, given: str = "", **environ: str) -> "subprocess.CompletedProcess[str]":
    """`pinchbolt ...` as a process, warnings being errors."""
    clean = {k: v for k, v in os.environ.items() if not k.startswith("PINCHBOLT_")}
    return subprocess.run(
        [sys.executable, "-W", "error", "-m", "pinchbolt.cli", *arguments],
        input=given,
        capture_output=True,
        text=True,
        env={**clean, "PYTHONPATH": str(SERVER), "COLUMNS": "110", **environ},
        check=False,
    )


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented season, loaded."""
    data: Path = tmp_path_factory.mktemp("cli") / "season"
    loaded = run("demo", "--load-only", "--data", str(data))
    assert loaded.returncode == 0, loaded.stderr
    assert re.search(r"Loaded \d+ entries", loaded.stdout)
    return data


def test_help_names_every_command_and_the_version_is_the_package_s():
    shown = run("--help")
    assert shown.returncode == 0
    for command in ("serve", "demo", "calc", "due", "pair", "devices", "revoke", "import", "export", "verify", "backup"):
        assert f"\n  {command} " in shown.stdout
        assert "Usage:" in CliRunner().invoke(main, [command, "--help"], catch_exceptions=False).stdout
    assert __version__ in run("--version").stdout
    assert f'version = "{__version__}"' in (SERVER.parent / "pyproject.toml").read_text()


def test_calc_lists_describes_and_runs():
    listed = run("calc").stdout
    assert all(c.id in listed for c in all_calculations())
    described = run("calc", "steerer-cut", "--help-inputs").stdout
    assert "head_tube" in described
    assert "60 to 350" in described
    arguments = ["head_tube=145", "lower_stack=1.5", "upper_stack=0.9 in", "spacers_below=20", "stem_height=40"]
    ran = run("calc", "steerer-cut", *arguments, "spacers_above=5", "steerer_uncut=300 ± 0.5", "mark=9,2 in")
    assert ran.returncode == 0, ran.stderr
    # 145 + 1.5 + 22.86 + 20 + 40 + 5 − 3, by hand
    assert "231.36" in ran.stdout
    assert "± 0.5" in ran.stdout
    assert "respirator" in ran.stdout


def test_calc_answers_in_json_as_the_server_does():
    found = next(c for c in all_calculations() if c.id == "gear-table")
    inputs = [f"{k}={json.dumps(v)}" for k, v in found.example.items()]
    ran = run("calc", "gear-table", *inputs, "--json")
    assert json.loads(ran.stdout) == json.loads(json.dumps(found.run(found.example)))
    lists = [f"{k}={';'.join(map(str, v))}" if isinstance(v, list) else f"{k}={v}" for k, v in found.example.items()]
    assert json.loads(run("calc", "gear-table", *lists, "--json").stdout) == json.loads(ran.stdout)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["steerer-cut", "head_tube=5 bar"], "head_tube: given 5 bar; wanted a measure in mm"),
        (["nope"], "calculation: given nope"),
        (["steerer-cut", "145"], "NAME=VALUE"),
        (["steerer-cut", "colour=red"], "colour"),
        (["gear-table", "rings=[1,"], "rings"),
    ],
)
def test_a_bad_input_ends_with_two_and_is_named(arguments: list[str], said: str):
    ran = run("calc", *arguments)
    assert ran.returncode == 2
    assert said in ran.stderr
    assert "Traceback" not in ran.stderr


def test_a_batch_answers_line_by_line():
    found = next(c for c in all_calculations() if c.id == "steerer-cut")
    good = json.dumps({"calculation": "steerer-cut", "inputs": found.example})
    ran = run("calc", "--batch", given="\n".join([good, '{"calculation": "nope", "inputs": {}}', "{", "", good]))
    first, unknown, broken, last = map(json.loads, ran.stdout.splitlines())
    assert ran.returncode == 1
    assert first == last
    assert set(first) == {"outputs", "findings", "working"}
    assert unknown["error"]["errors"][0]["field"] == "calculation"
    assert broken["error"]["errors"][0]["field"] == "line"
    assert run("calc", "--batch", given=good).returncode == 0


def test_a_wrong_setting_is_named():
    ran = run("serve", "--port", "x", PINCHBOLT_PROT="1")
    assert ran.returncode == 2
    assert "--port: given x" in ran.stderr
    assert "PINCHBOLT_PROT" in ran.stderr


def test_the_season_travels_out_and_in(season: Path, tmp_path: Path):
    exported = run("export", "--data", str(season))
    file = tmp_path / "season.jsonl"
    file.write_text(exported.stdout)
    unknown = run("import", str(file), "--data", str(tmp_path / "new"))
    assert unknown.returncode == 2
    assert "device" in unknown.stderr
    taken = run("import", str(file), "--adopt", "--data", str(tmp_path / "new"))
    many = len(exported.stdout.splitlines())
    assert (taken.returncode, taken.stdout.strip()) == (0, f"{many} stored, 0 known, 0 refused")
    again = run("import", str(file), "--data", str(tmp_path / "new"))
    assert again.stdout.strip() == f"0 stored, {many} known, 0 refused"
    assert run("verify", "--data", str(tmp_path / "new")).returncode == 0
    file.write_text(exported.stdout.replace('"km":', '"kilometres":', 1))
    altered = run("import", str(file), "--adopt", "--data", str(tmp_path / "other"))
    assert altered.returncode == 1
    assert "refused" in altered.stderr


def test_an_import_lends_no_right_that_the_writing_device_has_not(workshop: Workshop, tmp_path: Path):
    """A checker let in for one event, a rider, and the owner, in one file: each entry stands on its own writer's rights."""
    pen = hands.bench()
    known = [
        hands.describe(pen, FERN, "Fern", hands.IMRE),
        pen.write(hands.GAPS_DAY, "start", {"plate": "7", "bike": FERN[5:]}, hands.now()),
        pen.write("event/5d0f1c2e-8a44-4c1e-9d55-0b6a3f6d7e22", "start", {"plate": "8", "bike": SLATE[5:]}, hands.now()),
    ]
    workshop.push(hands.BENCH, batch(hands.BENCH, known))
    workshop.people.pair(workshop.people.invite(hands.ILKA, event=hands.GAPS_DAY[6:]), hands.ILKA_PHONE, "Ilka's phone")
    checker, rider = Writer(hands.ILKA_PHONE, hands.ILKA), Writer(hands.IMRE_PHONE, hands.IMRE)
    written = [
        hands.note(checker, "Rotor rubs.", FERN),
        hands.note(checker, "Rotor rubs.", SLATE),
        hands.note(rider, "It creaks.", FERN),
        hands.note(rider, "Not mine.", SLATE),
        hands.torque(rider, subject=FERN),
        hands.torque(pen, subject=SLATE),
    ]
    file = tmp_path / "queue.jsonl"
    file.write_bytes(b"\n".join(written))
    # A phone shut out meanwhile: what it saved to a file still counts, and still no further than its person.
    workshop.people.revoke(hands.IMRE_PHONE)
    taken = CliRunner().invoke(main, ["import", str(file), "--data", str(workshop.data)])
    assert (taken.exit_code, taken.stdout.strip()) == (1, "3 stored, 0 known, 3 refused"), taken.output
    told = [line.split(": ")[1:3] for line in taken.stderr.splitlines()]
    assert told == [
        [f"device {hands.ILKA_PHONE}, n 2", "subject"],
        [f"device {hands.IMRE_PHONE}, n 2", "subject"],
        [f"device {hands.IMRE_PHONE}, n 3", "kind"],
    ]
    again = CliRunner().invoke(main, ["import", str(file), "--adopt", "--data", str(workshop.data)])
    assert again.stdout.strip() == "0 stored, 3 known, 3 refused"


def test_export_of_one_subject(season: Path):
    lines = [json.loads(line) for line in run("export", "--subject", "workshop", "--data", str(season)).stdout.splitlines()]
    assert lines
    assert {line["entry"]["subject"] for line in lines} == {"workshop"}
    assert set(lines[0]) == {"seq", "received_at", "entry"}


def test_backup_verify_and_what_verify_finds(season: Path, tmp_path: Path):
    copy = tmp_path / "copied" / DATABASE
    copy.parent.mkdir()
    assert run("backup", str(copy), "--data", str(season)).returncode == 0
    assert run("backup", str(copy), "--data", str(season)).returncode == 2
    assert run("verify", "--data", str(copy.parent)).returncode == 0
    conn = sqlite3.connect(copy)
    conn.execute("UPDATE entries SET bytes = replace(bytes, 'e', 'a') WHERE seq = 9")
    conn.commit()
    conn.close()
    found = run("verify", "--data", str(copy.parent))
    assert found.returncode == 1
    assert "seq 9" in found.stdout
    assert run("verify", "--data", str(tmp_path / "nothing")).returncode == 2


def test_pair_devices_and_revoke(season: Path):
    paired = run("pair", "--person", "Bas", "--url", "https://alder.example/", "--data", str(season))
    assert re.search(r"https://alder\.example/pair#[0-9A-HJKMNP-TV-Z]{12}$", paired.stdout.strip())
    assert run("pair", "--person", "Nobody", "--data", str(season)).returncode == 2
    assert run("pair", "--person", "Runa", "--role", "rider", "--data", str(season)).returncode == 0
    listed = run("devices", "--data", str(season)).stdout
    device = next(line.split()[0] for line in listed.splitlines() if "Bas's phone" in line)
    assert run("revoke", device, "--data", str(season)).returncode == 0
    assert "revoked" in run("devices", "--data", str(season)).stdout
    assert run("revoke", "nothing", "--data", str(season)).returncode == 1


def test_due_tells_what_stops_a_ride_first_and_says_so_by_its_exit_code(season: Path):
    told = run("due", "--data", str(season))
    assert told.returncode == 1, told.stderr
    lines = [line for line in told.stdout.splitlines() if line.strip()]
    assert lines[1].startswith("stops a ride")
    assert "Wren" in lines[1]
    rows = [json.loads(line) for line in run("due", "--json", "--data", str(season)).stdout.splitlines()]
    levels = [("stop", "care", "fine", "coming").index(row["level"]) for row in rows]
    assert levels == sorted(levels)
    chain = next(row for row in rows if row["bike"] == "Slate" and row["due"] == "wear-chain_elongation")
    assert (chain["unit"], chain["level"]) == ("km", "coming")
    assert 0 < chain["left"] < 300


def test_due_of_a_workshop_that_is_not_there_is_wrongly_called(tmp_path: Path):
    assert run("due", "--data", str(tmp_path / "nowhere")).returncode == 2
