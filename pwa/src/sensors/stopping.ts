/** A stop out of what the phone's location says: how fast, how far, and how well that is known. */

import { deviation, doubt, mean } from "./spread";

export interface Fix {
  /** s */
  at: number;
  /** m/s; null when the phone does not say. */
  speed: number | null;
  /** Radius in which the place is with 95 % (Geolocation, W3C), m. */
  accuracy: number;
}

/** Every ± 95 %. */
export interface Stop {
  /** m/s */
  speed: number;
  speedPlusMinus: number;
  /** m */
  distance: number;
  distancePlusMinus: number;
  /** Whether the distance is too poorly known to judge a brake by. */
  coarse: boolean;
}

type Known = Fix & { speed: number };

/** A place this poor says nothing of speed either, m. */
export const POOR = 15;
/** A phone smooths its speeds: fixes nearer than this tell nothing new, s. */
const APART = 0.9;
/** Slower than this is standing, m/s. */
const STANDING = 0.5;
/** Braking takes at least this off, m/s²; before that the speed was held. */
const BRAKING = 0.5;
/** No phone says how good its speed is: half a metre a second is common practice. */
const LEAST = 0.5;
/** From touching the lever to the full brake, s: common practice. */
const BITES = 0.15;
/** Deceleration, and so the verdict, goes with the distance: a fifth is the most that may be open. */
const OPEN = 0.2;
const STEP = 0.05;

/** The newest stop in a track, or null while there is none: held speed, then slower at every fix down to standing. */
export function stopIn(track: Fix[]): Stop | null {
  const fixes: Known[] = [];
  for (const { at, speed, accuracy } of track) {
    const known = speed !== null && speed >= 0 && accuracy <= POOR;
    if (known && at - (fixes.at(-1)?.at ?? -APART) >= APART) fixes.push({ at, speed, accuracy });
  }
  const end = fixes.findLastIndex(({ speed }, at) => speed < STANDING && (fixes[at - 1]?.speed ?? 0) >= STANDING);
  if (end < 1) return null;
  let start = end;
  while (start > 0 && slowed(fixes[start - 1], fixes[start])) start -= 1;
  const from = fixes[start];
  const held = fixes.filter(({ at }) => from !== undefined && at < from.at && from.at - at < 4).map(({ speed }) => speed);
  if (from === undefined || start === end || held.length < 3) return null;
  const speed = mean(held);
  if (speed < 2) return null;
  const scatter = Math.max(LEAST / 2, deviation(held));
  const [lasted, between] = duration(fixes.slice(start - 1, end + 2), speed, scatter);
  const distance = (speed * lasted) / 2;
  const speedPlusMinus = Math.max(LEAST, doubt(held));
  const distancePlusMinus = Math.hypot((speed * between) / 2, (speedPlusMinus * lasted) / 2, BITES * speed);
  return { speed, speedPlusMinus, distance, distancePlusMinus, coarse: distancePlusMinus > OPEN * distance };
}

function slowed(before: Known | undefined, after: Known | undefined): boolean {
  return before !== undefined && after !== undefined && before.speed - after.speed > BRAKING * (after.at - before.at);
}

/**
 * How long the braking lasted, s, and its ±, if it slowed evenly: every beginning and length is tried against the fixes. Lengths
 * that fit worse than the best by less than χ² = 3.84 (95 %) are possible too.
 */
function duration(fixes: Known[], speed: number, scatter: number): [number, number] {
  const [first, last] = [fixes[0]?.at ?? 0, fixes.at(-1)?.at ?? 0];
  const misfits: [number, number][] = [];
  for (let lasted = 4 * STEP; lasted < last - first; lasted += STEP) {
    let least = Number.POSITIVE_INFINITY;
    for (let began = first; began < last; began += STEP) {
      let misfit = 0;
      for (const fix of fixes) {
        const left = Math.min(1, Math.max(0, 1 - (fix.at - began) / lasted));
        misfit += ((fix.speed - speed * left) / scatter) ** 2;
      }
      least = Math.min(least, misfit);
    }
    misfits.push([lasted, least]);
  }
  const best = Math.min(...misfits.map(([, misfit]) => misfit));
  const possible = misfits.filter(([, misfit]) => misfit < best + 3.84).map(([lasted]) => lasted);
  const [shortest, longest] = [possible[0] ?? 0, possible.at(-1) ?? 0];
  return [(shortest + longest) / 2, (longest - shortest) / 2];
}
