/** A bike's own numbers for its side view, out of its record: mm and degrees, null where nobody measured. */

import type { BikeState } from "../kernel/types";

/** From a measurement's name on the record to where it is drawn; the first name that has a value counts. */
const NAMES = {
  stack: ["stack"],
  reach: ["reach"],
  headAngle: ["head_angle"],
  seatAngle: ["seat_angle"],
  chainstay: ["chainstay"],
  frontCentre: ["front_centre"],
  wheelbase: ["wheelbase"],
  bbDrop: ["bb_drop"],
  wheelRadius: ["wheel_radius"],
  headTube: ["head_tube"],
  seatTube: ["seat_tube"],
  cover: ["headset_cover", "upper_stack"],
  spacers: ["spacers_below", "spacers"],
  stemHeight: ["stem_height"],
  stemLength: ["stem_length"],
  stemAngle: ["stem_angle"],
  crank: ["crank_length", "crank_new"],
  saddleHeight: ["saddle_height"],
  saddleSetback: ["saddle_setback"],
  saddleTilt: ["saddle_tilt"],
  targetBarX: ["target_bar_x"],
  targetBarY: ["target_bar_y"],
} as const;

export type BikeNumbers = Record<keyof typeof NAMES, number | null>;

export function bikeNumbers(state: BikeState): BikeNumbers {
  const found = (names: readonly string[]): number | null => {
    for (const name of names) {
      const measured = state.measures[name];
      const set = state.settings[name];
      // What was set after it was measured is how it stands now.
      if (set !== undefined && (measured === undefined || set.at >= measured.at)) return set.value;
      if (measured !== undefined) return measured.value;
    }
    return null;
  };
  return Object.fromEntries(Object.entries(NAMES).map(([name, names]) => [name, found(names)])) as BikeNumbers;
}
