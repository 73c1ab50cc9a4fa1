"""Open formats read and written on the phone: GPX 1.1 against an independent reader, iCalendar (RFC 5545) against another."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import gpxpy
import gpxpy.gpx
import pytest
from icalendar import Calendar

from tests.web.phone import Phone

# IUGG mean radius R1, m; a degree of a great circle on it.
DEGREE_KM = 6371.0088 * 3.141592653589793 / 180


def track(*segments: list[tuple[float, float, float | None]], minutes: int | None = 5) -> str:
    """A GPX file as the independent library writes it: points (latitude, longitude, height), so many minutes apart."""
    gpx = gpxpy.gpx.GPX()
    written = gpxpy.gpx.GPXTrack()
    gpx.tracks.append(written)
    at = datetime(2026, 5, 3, 9, 0, tzinfo=UTC)
    for points in segments:
        segment = gpxpy.gpx.GPXTrackSegment()
        for latitude, longitude, height in points:
            time = at if minutes is not None else None
            segment.points.append(gpxpy.gpx.GPXTrackPoint(latitude, longitude, elevation=height, time=time))
            at += timedelta(minutes=minutes or 0)
        written.segments.append(segment)
    return gpx.to_xml(version="1.1")


HILLS = [(46.0 + i * 0.004, 7.0 + (i % 7) * 0.003, 500 + 40 * (i % 9)) for i in range(120)]


def test_a_degree_of_latitude_is_a_degree_of_a_great_circle(mine: Phone) -> None:
    told = mine.do("gpx", track([(45.0, 7.0, None), (46.0, 7.0, None)]))
    assert told["km"] == pytest.approx(DEGREE_KM, rel=1e-9)
    assert told["climb"] is None, "no heights, nothing claimed"


def test_distance_and_time_agree_with_an_independent_reader(mine: Phone) -> None:
    """gpxpy takes the ellipsoid's equator for its radius: 0.11 % more than the mean radius."""
    text = track(HILLS[:70], HILLS[70:])
    told = mine.do("gpx", text)
    other = gpxpy.parse(text)
    assert told["km"] * 1000 == pytest.approx(other.length_2d(), rel=0.002)
    assert told["hours"] * 3600 == pytest.approx(other.get_duration())
    assert told["points"] == 120
    assert told["startedAt"] == "2026-05-03T09:00:00Z"


def test_what_lies_between_two_segments_was_not_ridden(mine: Phone) -> None:
    there = [(45.0, 7.0, None), (45.1, 7.0, None)]
    back = [(47.0, 7.0, None), (47.1, 7.0, None)]
    assert mine.do("gpx", track(there, back))["km"] == pytest.approx(0.2 * DEGREE_KM, rel=1e-6)


def test_climbing_counts_rises_and_not_a_wandering_altimeter(mine: Phone) -> None:
    up = [(45.0 + i * 0.001, 7.0, 300 + 10 * i) for i in range(21)]
    flat = [(45.0 + i * 0.001, 7.0, 300 + (i % 2)) for i in range(100)]
    assert mine.do("gpx", track(up))["climb"] == 200
    assert mine.do("gpx", track(flat))["climb"] == 0


def test_a_track_without_times_has_no_hours(mine: Phone) -> None:
    assert mine.do("gpx", track(HILLS, minutes=None))["hours"] is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "not an XML file"),
        ("<gpx", "not an XML file"),
        ("<kml/>", "not a GPX file"),
        ('<gpx xmlns="http://www.topografix.com/GPX/1/1"/>', "no track in this file"),
        ('<gpx><trk><trkseg><trkpt lat="95" lon="7"/><trkpt lat="45" lon="7"/></trkseg></trk></gpx>', "point 1: latitude 95"),
        ('<gpx><trk><trkseg><trkpt lon="7"/><trkpt lat="45" lon="7"/></trkseg></trk></gpx>', "point 1: latitude null"),
    ],
)
def test_what_is_no_track_is_refused_in_words(mine: Phone, text: str, said: str) -> None:
    assert said in mine.do("gpx", text)


LONG = "Slate · Chain: 0.454 %, limit 0.5 %; \\ über den Gap, " * 6 + "ß€𝄞" * 30


def days(*titles: str) -> list[dict[str, Any]]:
    return [
        {"uid": f"{i}@pinchbolt", "date": f"2026-12-{31 - i:02d}", "title": title, "text": f"{title}\nsecond line"}
        for i, title in enumerate(titles)
    ]


def test_the_calendar_says_to_an_independent_reader_what_is_due(mine: Phone) -> None:
    given = days("Slate: Chain", "Wren; check, after a fall", "back\\slash", LONG)
    text = mine.do("calendar", given, "2026-11-25T14:00:00.000Z")
    read = Calendar.from_ical(text)
    assert str(read["version"]) == "2.0"
    assert read["prodid"]
    events = [one for one in read.walk("VEVENT")]
    assert [str(e["summary"]) for e in events] == [one["title"] for one in given]
    assert [str(e["description"]) for e in events] == [one["text"] for one in given]
    assert [e["dtstart"].dt for e in events] == [date.fromisoformat(one["date"]) for one in given]
    # DTEND is the day after (RFC 5545, 3.6.1: not inclusive), over a year's end too.
    assert all(e["dtend"].dt - e["dtstart"].dt == timedelta(days=1) for e in events)
    assert {e["dtstamp"].dt for e in events} == {datetime(2026, 11, 25, 14, tzinfo=UTC)}
    assert len({str(e["uid"]) for e in events}) == len(given)


def test_lines_are_folded_at_75_octets_and_never_inside_a_character(mine: Phone) -> None:
    """RFC 5545, 3.1: lines end in CRLF and should not be longer than 75 octets without it."""
    text: str = mine.do("calendar", days(LONG), "2026-11-25T14:00:00.000Z")
    assert text.endswith("\r\n")
    lines = text.encode().split(b"\r\n")
    assert max(len(line) for line in lines) <= 75
    assert b"\n" not in text.encode().replace(b"\r\n", b"")
    for line in lines:
        line.decode("utf-8")
