/** What the kernel answers about a build: plan, cuts, torques, position. `server/pinchbolt/kernel` is the authority. */

import type { CutState, JointState } from "./types";

/** `kernel/plan.py`. `by` says what blocks it, `missing` what the record lacks. */
export interface PlanStep {
  step: string;
  title: string;
  after: string[];
  done_by: string[];
  page: string;
}

export interface PlannedStep extends PlanStep {
  status: "done" | "ready" | "blocked";
  by: string[];
  missing: string[];
}

/** `kernel/cutting.py`. */
export interface CutRoute {
  name: string;
  measure: string;
  value: number | null;
  missing: string[];
  at: string | null;
  by: string | null;
}

export interface CutCard {
  what: string;
  title: string;
  unit: string;
  routes: [CutRoute, CutRoute];
  disagreement: number | null;
  tolerance: number;
  agreed: boolean;
  independent: "another person" | "another time" | "at once" | null;
  number: number | null;
  open: boolean;
  blocked: string[];
  marks: string[];
  cautions: string[];
  done: CutState[];
}

/** `kernel/torques.py`. Torques in N·m. */
export interface TorqueCard {
  joint: string;
  low: number | null;
  high: number | null;
  usual: boolean;
  low_usual: boolean;
  usual_low: number | null;
  usual_high: number | null;
  marks: { part: string | null; name: string; value: number }[];
  clash: boolean;
  condition: string;
  bolts: number;
  order: string;
  sequence: number[];
  slot: string;
  caution: string;
  source: string;
  by_feel: boolean;
  on_bike: boolean;
  done: (JointState & { painted?: boolean }) | null;
}

/** `kernel/built_position.py`. */
export type Held = "within" | "off" | "not-known";

export interface BuiltPosition {
  lines: {
    name: string;
    label: string;
    unit: string;
    tolerance: number;
    wanted: number | null;
    built: number | null;
    off: number | null;
    result: Held;
    at: string | null;
  }[];
  pairs: {
    name: string;
    label: string;
    unit: string;
    tolerance: number;
    left: number | null;
    right: number | null;
    off: number | null;
    result: Held;
  }[];
  worst: Held;
}

/** A torque tool of the workshop, as `tool-define` has it: N·m and ± %. Without `least` its scale has no start of its own. */
export interface TorqueTool {
  tool: string;
  most: number;
  accuracy: number;
  least?: number | null;
}

/** A part somebody has in mind, as `swap-idea` has it: the mass of all pieces of the slot. */
export interface SwapIdea {
  entry: string;
  slot: string;
  name: string;
  mass: number;
  cost?: number | null;
}

/** An interface kind of the workshop's own. */
export interface OwnInterface {
  kind: string;
  label: string;
  fields: { name: string; unit: string; label: string }[];
  meets?: string;
}

/** `kernel/interfaces.py`: a kind of interface and its dimensions. */
export interface Interface {
  kind: string;
  label: string;
  /** `known`: of a text the words the rules know. They go onto the record as they are and are put over only where shown. */
  fields: { name: string; unit: string; label: string; known?: string[] }[];
}

/** `kernel/fits.py`: what fits what, gravest first, and what is left to measure. */
export interface FitReport {
  joints: {
    rule: string;
    title: string;
    result: "fits" | "fits-with" | "does-not-fit" | "not-known";
    reason: string;
    a: string | null;
    b: string | null;
    with: string;
    missing: string[];
    stop: boolean;
    source: string;
    part_a: string | null;
    part_b: string | null;
    end: "front" | "rear" | "";
  }[];
  measure: string[];
  worst: string;
}
