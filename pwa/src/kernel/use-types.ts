/** Shapes of the kernel's answers about a bike in use. The Python kernel is the authority. */

import type { BikeState, Due, Standing } from "./types";

/** `record.summary`, and what is due: one line of a list of bikes. */
export interface BikeLine {
  summary: {
    subject: string;
    name: string | null;
    use: string | null;
    rider: string | null;
    standing: Pick<Standing, "verdict" | "words" | "reasons" | "at" | "by">;
    faults: number;
    questions: number;
    km: number;
    last_at: string | null;
  };
  due: Due[];
}

export interface OpenedBike extends BikeLine {
  state: BikeState;
}

/** A row of what is due across bikes. */
export interface DueRow extends Due {
  subject: string;
  bike: string | null;
}

/** `kernel/spoken.py`: what was said, as far as it was understood. */
export interface Spoken {
  found: {
    setting: string;
    label: string;
    unit: string;
    from: number | null;
    to: number;
    by: number | null;
    way: string;
  } | null;
  choices: string[];
  unknown: string[];
  reason: string;
  /** In words, what is missing; "" when nothing is. */
  wanted: string;
}

/** `kernel/stepping_back.py` */
export interface StepsBack {
  baseline: { name: string; entry: string; at: string; by: string } | null;
  moves: StepBack[];
  left_alone: string[];
}

export interface StepBack {
  setting: string;
  label: string;
  place: string;
  unit: string;
  from: number;
  to: number;
  by: number;
  /** What to do: "4 mm down". */
  way: string;
}

export interface Difference {
  name: string;
  label: string;
  unit: string;
  before: number | null;
  after: number | null;
  by: number | null;
}

export interface Compared {
  settings: Difference[];
  measures: Difference[];
  km: number;
  hours: number;
  fitted: { part: string; slot: string; name: string }[];
  removed: { part: string; slot: string; name: string }[];
}

/** `kernel/part_km.py` */
export interface PartTotal {
  part: string;
  name: string;
  slot: string;
  km: number;
  hours: number;
  /** The bikes it is on now: none for a spare, two only by mistake. */
  on: string[];
  stretches: { subject: string; bike: string | null; km: number; hours: number; from: string; until: string | null }[];
}

/** `kernel/worn.py` */
export interface Worn {
  what: string;
  title: string;
  unit: string;
  part: string | null;
  name: string | null;
  limit: number | null;
  limit_from: string;
  wears: "up" | "down";
  by: "km" | "days";
  readings: { at: number; value: number; plus_minus: number | null; entry: string; when: string; who: string }[];
  now: number | null;
}

/** Why something typed cannot be true, and what is likely behind it. */
export interface Doubt {
  text: string;
  /** `impossible` is not recorded at all; `limit` is above what a maker marked. */
  likely: "renewed" | "otherwise" | "figure" | "limit" | "impossible";
  level?: "care" | "stop";
}

/** `kernel/intervals.py`: after how much a job comes up again. */
export interface Interval {
  due: string;
  title: string;
  level: "stop" | "care" | "fine";
  km: number | null;
  hours: number | null;
  days: number | null;
  why: string;
  source: string;
}
