/** The browser's sensors, each behind one function: it begins, calls back with what it reads, and is ended by what it gives. */

import { rise } from "./angle";
import type { Fix } from "./stopping";
import { pluckIn, toneOf } from "./tone";

export class Refused extends Error {
  override name = "Refused";
}

export type End = () => void;

/** iOS asks the person, and only out of a touch. */
type Asking = typeof DeviceOrientationEvent & { requestPermission?: () => Promise<PermissionState> };

/** ms */
const READ_EVERY = 20;

export async function readRise(onRise: (degrees: number) => void): Promise<End> {
  const asking = DeviceOrientationEvent as Asking;
  if (asking.requestPermission !== undefined && (await asking.requestPermission()) !== "granted") throw new Refused();
  // A browser is silent while nothing changes: what it said last still holds, and is read on evenly.
  let beta: number | null = null;
  const heard = (event: DeviceOrientationEvent) => {
    beta = event.beta ?? beta;
  };
  addEventListener("deviceorientation", heard);
  const timer = setInterval(() => {
    if (beta !== null) onRise(rise(beta));
  }, READ_EVERY);
  return () => {
    clearInterval(timer);
    removeEventListener("deviceorientation", heard);
  };
}

/** Long enough for the lowest spoke's tone, short enough not to run into the next pluck. */
const PIECE = 16384;
const SOUNDS = 8192;
const EVERY = 50;

/** Looked for in a range wider than what is usual: a slack spoke must read as slack, not as its octave. */
export async function readPlucks(low: number, high: number, onTone: (hz: number) => void): Promise<End> {
  // What a phone does to make speech clear bends a tone.
  const audio = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  const stream = await navigator.mediaDevices.getUserMedia({ audio }).catch((error: DOMException) => {
    throw error.name === "NotAllowedError" ? new Refused() : error;
  });
  const context = new AudioContext();
  await context.resume();
  const ear = context.createAnalyser();
  ear.fftSize = PIECE;
  context.createMediaStreamSource(stream).connect(ear);
  const sound = new Float32Array(PIECE);
  let deafUntil = 0;
  const timer = setInterval(() => {
    if (context.currentTime < deafUntil) return;
    ear.getFloatTimeDomainData(sound);
    const from = pluckIn(sound, context.sampleRate);
    if (from === null || from + SOUNDS > PIECE) return;
    const tone = toneOf(sound.slice(from, from + SOUNDS), context.sampleRate, low, high);
    deafUntil = context.currentTime + PIECE / context.sampleRate;
    if (tone !== null) onTone(tone);
  }, EVERY);
  return () => {
    clearInterval(timer);
    for (const track of stream.getTracks()) track.stop();
    void context.close();
  };
}

export function readFixes(onFix: (fix: Fix) => void, onRefused: () => void): End {
  const watch = navigator.geolocation.watchPosition(
    ({ timestamp, coords }) => onFix({ at: timestamp / 1000, speed: coords.speed, accuracy: coords.accuracy }),
    (error) => {
      if (error.code === error.PERMISSION_DENIED) onRefused();
    },
    { enableHighAccuracy: true, maximumAge: 0 },
  );
  return () => navigator.geolocation.clearWatch(watch);
}
