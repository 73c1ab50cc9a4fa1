/** Which drawing shows how a thing is measured, and in which words where its own declaration has none. */

import type { Part } from "./parts";
import type { Place } from "./side";

export type How = { place: Place } | { part: Part };

const HOW: Record<string, How> = {
  saddle_height: { place: "saddle-height" },
  saddle_setback: { place: "saddle-setback" },
  saddle_tilt: { place: "saddle-tilt" },
  target_bar_x: { place: "bar-ahead" },
  target_bar_y: { place: "bar-above" },
  bar_x: { place: "bar-ahead" },
  bar_y: { place: "bar-above" },
  bar_reach: { place: "bar-ahead" },
  bar_height: { place: "bar-above" },
  bar_tilt: { part: "bar-tilt" },
  stack: { place: "stack" },
  reach: { place: "reach" },
  head_angle: { place: "head-angle" },
  seat_angle: { place: "seat-angle" },
  seat_tube: { place: "seat-tube" },
  head_tube: { place: "head-tube" },
  chainstay: { place: "chainstay" },
  front_centre: { place: "front-centre" },
  wheelbase: { place: "wheelbase" },
  bb_drop: { place: "bb-drop" },
  wheel_radius: { place: "wheel-radius" },
  crank_length: { place: "crank" },
  crank_old: { place: "crank" },
  crank_new: { place: "crank" },
  spacers: { part: "spacers" },
  spacers_below: { part: "spacers" },
  lever_reach_left: { part: "lever-reach" },
  lever_reach_right: { part: "lever-reach" },
  lever_height_left: { part: "lever-height" },
  lever_height_right: { part: "lever-height" },
  lever_angle_left: { part: "lever-angle" },
  lever_angle_right: { part: "lever-angle" },
  pressure_front: { part: "pressure" },
  pressure_rear: { part: "pressure" },
  rotor_front: { part: "rotor" },
  rotor_rear: { part: "rotor" },
  pad_front: { part: "pad" },
  pad_rear: { part: "pad" },
  chain_elongation: { part: "chain" },
  tread_front: { part: "tread" },
  tread_rear: { part: "tread" },
};

export function howTo(what: string): How | null {
  return HOW[what] ?? null;
}
