/** The tone of a plucked spoke out of a piece of sound. */

import { doubt, mean } from "./spread";

/** How alike a tone is to itself a period later; 1 is a pure one. */
const CLEAR = 0.8;
const SETTLES = 0.02;
const BLOCK = 256;

/**
 * The lowest partial, Hz; null where nothing sounds. Autocorrelation finds the period; the peak of the spectrum there says how high
 * the lowest partial is. A stiff spoke's partials lie too high, which pulls the period along but not the peak.
 */
export function toneOf(sound: Float32Array, rate: number, low: number, high: number): number | null {
  const shortest = Math.max(2, Math.floor(rate / high));
  const longest = Math.min(Math.ceil(rate / low), Math.floor(sound.length / 2));
  const alike = likeness(sound, longest + 1);
  const peaks: number[] = [];
  for (let lag = shortest; lag <= longest; lag++) {
    const here = alike[lag] ?? 0;
    if (here > CLEAR && here >= (alike[lag - 1] ?? 1) && here > (alike[lag + 1] ?? 1)) peaks.push(lag);
  }
  const best = Math.max(...peaks.map((lag) => alike[lag] ?? 0));
  // Twice the period is as alike as once: the first that is nearly the best.
  const lag = peaks.find((one) => (alike[one] ?? 0) > 0.93 * best);
  if (lag === undefined) return null;
  const about = rate / (lag + vertex(alike[lag - 1] ?? 0, alike[lag] ?? 0, alike[lag + 1] ?? 0));
  return spectralPeak(sound, rate, about);
}

/** Where the newest pluck begins to sound cleanly; null when none begins in this piece. */
export function pluckIn(sound: Float32Array, rate: number): number | null {
  const powers: number[] = [];
  for (let at = 0; at + BLOCK <= sound.length; at += BLOCK) powers.push(power(sound, at, at + BLOCK));
  const loudest = Math.max(...powers);
  const first = powers.findIndex((one) => one > loudest / 4);
  const before = first > 0 ? mean(powers.slice(0, first)) : loudest;
  if (loudest < 1e-6 || loudest < 10 * before) return null;
  return (first + 1) * BLOCK + Math.round(SETTLES * rate);
}

/** Several plucks taken together: the mean and its ±. */
export function together(tones: number[]): { hz: number; plusMinus: number } | null {
  if (tones.length < 3) return null;
  return { hz: mean(tones), plusMinus: Math.max(0.5, doubt(tones)) };
}

/** Whether a tone outside of what is usual has its octave inside, so that it may have been taken for it. */
export function mayBeOctave(hz: number, [low, high]: [number, number]): boolean {
  const inside = (one: number) => one >= low && one <= high;
  return !inside(hz) && (inside(hz / 2) || inside(hz * 2));
}

/** Autocorrelation, scaled so that a sound repeated exactly gives 1. */
function likeness(sound: Float32Array, longest: number): Float64Array {
  const alike = new Float64Array(longest + 1);
  for (let lag = 1; lag <= longest; lag++) {
    let product = 0;
    let energy = 0;
    for (let at = 0; at + lag < sound.length; at++) {
      const here = sound[at] ?? 0;
      const later = sound[at + lag] ?? 0;
      product += here * later;
      energy += here * here + later * later;
    }
    alike[lag] = energy === 0 ? 0 : (2 * product) / energy;
  }
  return alike;
}

function spectralPeak(sound: Float32Array, rate: number, about: number): number {
  const step = rate / sound.length / 4;
  const reach = Math.ceil((0.04 * about) / step) + 1;
  const heights: number[] = [];
  for (let at = -reach; at <= reach; at++) heights.push(Math.log(strength(sound, rate, about + at * step) + 1e-30));
  const top = heights.indexOf(Math.max(...heights));
  // At the rim of the stretch there is no peak: the period is all there is.
  if (top === 0 || top === heights.length - 1) return about;
  return about + (top - reach + vertex(heights[top - 1] ?? 0, heights[top] ?? 0, heights[top + 1] ?? 0)) * step;
}

/** Power at one frequency under a Hann window. */
function strength(sound: Float32Array, rate: number, hz: number): number {
  const turn = (2 * Math.PI * hz) / rate;
  const arch = (2 * Math.PI) / sound.length;
  let real = 0;
  let imaginary = 0;
  for (let at = 0; at < sound.length; at++) {
    const weighed = (sound[at] ?? 0) * (1 - Math.cos(arch * at));
    real += weighed * Math.cos(turn * at);
    imaginary += weighed * Math.sin(turn * at);
  }
  return real * real + imaginary * imaginary;
}

/** How far from the middle of three even steps a parabola through them has its top. */
function vertex(before: number, here: number, after: number): number {
  const bend = before - 2 * here + after;
  return bend === 0 ? 0 : (before - after) / (2 * bend);
}

function power(sound: Float32Array, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum += (sound[at] ?? 0) ** 2;
  return sum / (to - from);
}
