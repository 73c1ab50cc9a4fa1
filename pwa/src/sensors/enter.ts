/** Which tool serves a field, and whether this phone has what it needs. Small: it is loaded with the fields themselves. */

import { spoken } from "../languages/spoken";

export type Tool = "angle" | "tone" | "stop";

const ANGLES = /^((target_)?saddle_tilt|bar_tilt|head_angle|seat_angle|lever_angle_(left|right))$/;

export const english = {
  enter: "Measure with the phone",
  /** How a figure came about. It goes into the field of the person's own words, to be changed before it is recorded. */
  byPhone: (plusMinus: string) => `phone, ± ${plusMinus}`,
};

export type EntryWords = typeof english;

export const entry: EntryWords = spoken("sensors", english);

export function toolFor(name: string, calculation?: string): Tool | null {
  const tool = ANGLES.test(name)
    ? "angle"
    : calculation === "spoke-tension" && name === "tone"
      ? "tone"
      : calculation === "stopping-check" && (name === "speed" || name === "distance")
        ? "stop"
        : null;
  return tool !== null && has(tool) ? tool : null;
}

function has(tool: Tool): boolean {
  if (!globalThis.isSecureContext) return false;
  switch (tool) {
    case "angle":
      // A desk's browser has the event too, and never fires it.
      return "DeviceOrientationEvent" in globalThis && navigator.maxTouchPoints > 0;
    case "tone":
      return navigator.mediaDevices?.getUserMedia !== undefined && "AudioContext" in globalThis;
    case "stop":
      return "geolocation" in navigator && navigator.maxTouchPoints > 0;
  }
}
