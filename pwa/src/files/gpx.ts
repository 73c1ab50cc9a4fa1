/** A ride out of a GPX 1.1 file (the open track format), read on the phone; only its sums are kept, never where it went. */

import { problems } from "../store/words";
import { readXml } from "../trusted";

export interface Track {
  km: number;
  hours: number | null;
  /** Metres climbed, or null when the file has no heights. */
  climb: number | null;
  /** When it began, as the file says, or null. */
  startedAt: string | null;
  points: number;
}

export class GpxError extends Error {}

/** Mean radius of the earth, m (IUGG, R1). */
const EARTH = 6371008.8;

/** A rise counts once it exceeds this, so that a wandering altimeter does not climb on the flat. */
const CLIMB_STEP = 3;

interface Point {
  lat: number;
  lon: number;
  height: number | null;
  time: string | null;
}

/** Great-circle distance, m (haversine). */
function apart(a: Point, b: Point): number {
  const rad = Math.PI / 180;
  const dLat = (b.lat - a.lat) * rad;
  const dLon = (b.lon - a.lon) * rad;
  const h = Math.sin(dLat / 2) ** 2 + Math.cos(a.lat * rad) * Math.cos(b.lat * rad) * Math.sin(dLon / 2) ** 2;
  return 2 * EARTH * Math.asin(Math.min(1, Math.sqrt(h)));
}

function pointOf(element: Element, index: number): Point {
  const lat = Number(element.getAttribute("lat") ?? Number.NaN);
  const lon = Number(element.getAttribute("lon") ?? Number.NaN);
  if (!(Math.abs(lat) <= 90) || !(Math.abs(lon) <= 180)) {
    throw new GpxError(`point ${index + 1}: latitude ${element.getAttribute("lat")}, longitude ${element.getAttribute("lon")}`);
  }
  const text = (name: string) => element.getElementsByTagName(name)[0]?.textContent?.trim() || null;
  const height = text("ele");
  return { lat, lon, height: height === null || Number.isNaN(Number(height)) ? null : Number(height), time: text("time") };
}

function climbed(heights: number[]): number {
  let low = heights[0] ?? 0;
  let total = 0;
  for (const height of heights) {
    if (height - low >= CLIMB_STEP) {
      total += height - low;
      low = height;
    } else if (height < low) {
      low = height;
    }
  }
  return total;
}

/**
 * The sums of every track segment in `xml`. Gaps between segments are not ridden and not counted.
 * Throws GpxError, in words for the screen, when it is no GPX or has no track.
 */
export function readGpx(xml: string): Track {
  const document = readXml(xml);
  if (document.getElementsByTagName("parsererror").length > 0) throw new GpxError(problems.ride.notXml);
  if (document.documentElement.localName !== "gpx") throw new GpxError(problems.ride.notGpx);
  let metres = 0;
  let seconds = 0;
  let timed = true;
  let points = 0;
  let climb = 0;
  let heights = 0;
  let startedAt: string | null = null;
  for (const segment of document.getElementsByTagName("trkseg")) {
    const track = [...segment.getElementsByTagName("trkpt")].map(pointOf);
    points += track.length;
    for (let i = 1; i < track.length; i += 1) {
      const [a, b] = [track[i - 1], track[i]];
      if (a && b) metres += apart(a, b);
    }
    const first = track[0]?.time ?? null;
    const last = track.at(-1)?.time ?? null;
    const span = first && last ? Date.parse(last) - Date.parse(first) : Number.NaN;
    if (span >= 0) seconds += span / 1000;
    else if (track.length > 1) timed = false;
    startedAt ??= first;
    const known = track.flatMap((point) => (point.height === null ? [] : [point.height]));
    heights += known.length;
    climb += climbed(known);
  }
  if (points < 2) throw new GpxError(problems.ride.noTrack);
  return {
    km: metres / 1000,
    hours: timed && seconds > 0 ? seconds / 3600 : null,
    climb: heights > 1 ? Math.round(climb) : null,
    startedAt,
    points,
  };
}
