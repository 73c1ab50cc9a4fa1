/** A stop out of what the phone's location says: how fast, how far, and how well that is known. */

import { deviation, mean } from "./angle";

export interface Fix {
  /** s */
  at: number;
  /** m/s; null when the phone does not say. */
  speed: number | null;
  /** Radius in which the place is with 95 % (Geolocation, W3C), m. */
  accuracy: number;
}

export interface Stop {
  /** m/s, with its ±. */
  speed: number;
  speedPlusMinus: number;
  /** m, with its ±. */
  distance: number;
  distancePlusMinus: number;
  /** Whether the distance is too poorly known to judge a brake by. */
  coarse: boolean;
}

/** Slower than this is standing. */
const STANDING = 0.5;
/** No phone says how good its speed is: 0.5 m/s at least is common practice. */
const LEAST = 0.5;
/** Deceleration, and so the verdict, goes with the distance: a fifth is the most that may be open. */
const OPEN = 0.2;
/** A place this poor says nothing of speed either, m. */
const POOR = 15;

/** The newest stop in a track, or null while there is none: steady riding, then slower at every fix down to standing. */
export function stopIn(track: Fix[]): Stop | null {
  const fixes = track.filter((one): one is Fix & { speed: number } => one.speed !== null && one.accuracy <= POOR);
  const end = fixes.findLastIndex((one, at) => one.speed < STANDING && (fixes[at - 1]?.speed ?? 0) >= STANDING);
  if (end < 2) return null;
  let start = end;
  // Braking takes at least half a metre a second off, every second; before that the speed was held.
  while (start > 0 && (fixes[start - 1]?.speed ?? 0) - (fixes[start]?.speed ?? 0) > 0.5 * gap(fixes, start)) start -= 1;
  const from = fixes[start];
  if (from === undefined || start === end || from.speed < 2) return null;
  const steady = fixes.filter((one, at) => at <= start && from.at - one.at <= 3).map((one) => one.speed);
  if (steady.length < 2) return null;
  const speed = mean(steady);
  const speedPlusMinus = Math.max(LEAST, (2 * deviation(steady)) / Math.sqrt(steady.length));
  let distance = 0;
  for (let at = start + 1; at <= end; at++) {
    distance += (((fixes[at - 1]?.speed ?? 0) + (fixes[at]?.speed ?? 0)) / 2) * gap(fixes, at);
  }
  // The brake went on somewhere between two fixes, and the wheels stood somewhere between two others: evenly spread.
  const began = (speed * gap(fixes, start + 1)) / Math.sqrt(12);
  const ended = ((fixes[end - 1]?.speed ?? 0) * gap(fixes, end)) / Math.sqrt(12);
  const summed = (speedPlusMinus / 2) * ((fixes[end]?.at ?? 0) - from.at);
  const distancePlusMinus = 2 * Math.hypot(began, ended, summed);
  return { speed, speedPlusMinus, distance, distancePlusMinus, coarse: distancePlusMinus > OPEN * distance };
}

function gap(fixes: Fix[], at: number): number {
  return (fixes[at]?.at ?? 0) - (fixes[at - 1]?.at ?? 0);
}
