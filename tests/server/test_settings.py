"""Settings: from options, else from the environment; wrong ones are named."""

from pathlib import Path

import pytest

from pinchbolt.kernel.errors import InputError
from pinchbolt.settings import SETTINGS, read_settings


def fields(environ: dict[str, str], options: dict[str, str | None] | None = None) -> list[str]:
    with pytest.raises(InputError) as refused:
        read_settings(environ, options)
    return [p["field"] for p in refused.value.problems]


def test_defaults_are_good_and_stay_on_this_machine():
    settings = read_settings({})
    assert (settings.host, settings.port, settings.scheme) == ("127.0.0.1", 8000, "http")


def test_an_option_wins_over_the_environment():
    environ = {"PINCHBOLT_PORT": "9000", "PINCHBOLT_DATA": "/srv/bench", "OTHER": "x"}
    settings = read_settings(environ, {"port": "9001", "data": None})
    assert (settings.port, settings.data) == (9001, Path("/srv/bench"))


WRONG = {
    "port": ["x", "65536", "-1", "٨"],
    "host": ["bench.local:80", ""],
    "workshop": [" ", "a\nb"],
    "proxies": ["everybody"],
    "data": [""],
}


@pytest.mark.parametrize(("name", "value"), [(name, value) for name, values in WRONG.items() for value in values])
def test_a_wrong_one_is_named_where_it_was_given(name: str, value: str):
    assert fields({"PINCHBOLT_" + name.upper(): value}) == ["PINCHBOLT_" + name.upper()]
    assert fields({}, {name: value}) == ["--" + name]


def test_all_wrong_ones_are_named_at_once():
    assert fields({"PINCHBOLT_PORT": "x", "PINCHBOLT_HOST": "y"}) == ["PINCHBOLT_HOST", "PINCHBOLT_PORT"]


def test_an_unknown_variable_is_an_error_not_ignored():
    assert fields({"PINCHBOLT_PROT": "9000"}) == ["PINCHBOLT_PROT"]


def test_certificate_and_key_go_together(tmp_path: Path):
    pem = tmp_path / "bench.pem"
    pem.write_text("x")
    assert fields({}, {"certificate": str(pem)}) == ["certificate"]
    assert read_settings({}, {"certificate": str(pem), "key": str(pem)}).scheme == "https"
    assert fields({}, {"certificate": "/none", "key": str(pem)}) == ["--certificate"]


def test_each_setting_says_what_it_is_for():
    for setting in SETTINGS:
        assert setting.help.endswith(".")
        assert setting.wanted


def test_the_administrators_list_is_this_list():
    """docs/administration.md has a row for each setting, in their order, with its option, variable, default and meaning."""
    text = (Path(__file__).parents[2] / "docs" / "administration.md").read_text()
    rows = [line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| `--")]
    assert [row[:2] for row in rows] == [[f"`{s.option}`", f"`{s.env}`"] for s in SETTINGS]
    assert [row[3] for row in rows] == [s.help for s in SETTINGS]
    assert all(
        row[2] == (f"`{s.default}`" if s.default else "none") for row, s in zip(rows, SETTINGS, strict=True) if s.name != "data"
    )


def test_without_https_it_stays_on_this_machine_unless_told_in_so_many_words():
    for host in ("0.0.0.0", "192.168.7.20", "::"):
        assert fields({"PINCHBOLT_HOST": host}) == ["host"]
        assert read_settings({"PINCHBOLT_HOST": host, "PINCHBOLT_PLAIN_HTTP_ANYWAY": "yes"}).host == host
        assert read_settings({"PINCHBOLT_HOST": host, "PINCHBOLT_LAN": "yes"}).scheme == "https"
    assert fields({"PINCHBOLT_PLAIN_HTTP_ANYWAY": "perhaps"}) == ["PINCHBOLT_PLAIN_HTTP_ANYWAY"]
    assert [read_settings({"PINCHBOLT_HOST": host}).host for host in ("127.0.0.1", "::1", "localhost")]
    assert read_settings({}, {"lan": "yes"}).host == "0.0.0.0", "on the network every address is listened on"


def test_days_names_and_log_levels_are_looked_at():
    for name, value in (
        ("retention", "-1"),
        ("retention", "a year"),
        ("names", "Bench_Local"),
        ("log", "loud"),
        ("trust_port", "x"),
    ):
        assert fields({"PINCHBOLT_" + name.upper(): value}) == ["PINCHBOLT_" + name.upper()], name
    assert read_settings({"PINCHBOLT_NAMES": "bench.lan, rec.home.arpa"}).names == ("bench.lan", "rec.home.arpa")
