/** What the kernel's declarations and answers look like. The Python kernel is the authority; these are its shapes. */

import type { OwnInterface, PlanStep, SwapIdea, TorqueTool } from "./build-types";

export type Kind = "number" | "whole" | "flag" | "choice" | "text" | "numbers" | "rows";

export interface Quantity {
  name: string;
  kind: Kind;
  unit: string;
  label: string;
  help: string;
  optional: boolean;
  default: unknown;
  possible?: [number, number];
  plausible?: [number, number];
  digits?: number;
  /** Which way a shown figure may be rounded, where to nearest could take material away. */
  rounds?: "up" | "down";
  step?: number;
  choices?: string[];
  least?: number;
  most?: number;
  fields?: Quantity[];
}

export interface Calculation {
  id: string;
  family: string;
  title: string;
  question: string;
  inputs: Quantity[];
  outputs: Quantity[];
  cautions: string[];
  source: string;
  example: Record<string, unknown>;
}

export interface Finding {
  level: "fine" | "care" | "stop";
  field: string;
  text: string;
}

export interface WorkingLine {
  symbol: string;
  formula: string;
  numbers: string;
  result: number | null;
  unit: string;
}

export interface Answer {
  outputs: Record<string, unknown>;
  findings: Finding[];
  working: WorkingLine[];
  uncertainty?: Record<string, { worst: number; likely: number }>;
}

export interface Problem {
  field: string;
  given: string;
  wanted: string;
}

/** How a bike or a check stands. Worst first: not-fit, not-complete, care, fit. */
export type VerdictWord = "fit" | "care" | "not-fit" | "not-complete";

export interface Reason {
  level: "stop" | "open" | "care";
  text: string;
  item?: string;
  entry?: string;
}

/** `kernel/verdicts.py`: the verdict on an answered check. */
export interface Verdict {
  verdict: VerdictWord;
  words: string;
  reasons: Reason[];
  scope: "whole" | "part";
  caution: string;
}

/** `kernel/standing.py`: may it be ridden, and what would clear it. */
export interface Standing {
  verdict: VerdictWord;
  words: string;
  reasons: Reason[];
  clears: string[];
  check: string | null;
  at: string | null;
  by: string | null;
  caution: string;
}

/** `kernel/check_items.py`: one thing to look at. `last` is there after `prepare`. */
export interface CheckItem {
  item: string;
  area: string;
  title: string;
  do: string;
  passes: string;
  essential: boolean;
  caution: string;
  measure: string;
  unit: string;
  low: number | null;
  high: number | null;
  low_from: string;
  high_from: string;
  answer: "mark" | "value";
  /** A picture is asked for whatever the answer. */
  photo?: boolean;
  last?: Measured | null;
  /** From where to where a measured value can be; only where the check was made ready for a bike. */
  possible?: [number, number] | null;
}

export interface CheckDefinition {
  schema: number;
  check: string;
  version: number;
  title: string;
  purpose: string;
  scope: "whole" | "part";
  who: "mechanic" | "rider";
  items: CheckItem[];
}

/** One answer of a check, with what was asked beside it (docs/record.md, kind `check`). */
export interface CheckAnswer {
  item: string;
  title?: string;
  essential?: boolean;
  mark?: "pass" | "attention" | "fail";
  value?: number;
  unit?: string;
  low?: number;
  high?: number;
  note?: string;
}

/** What every told entry carries beside its own fields. `km` is what the bike had run by then. */
export interface Told {
  entry: string;
  at: string;
  by: string;
  km?: number;
}

/** A register's value that shows: a measure or a weighing, with what came before. */
export interface Measured extends Told {
  value: number;
  unit?: string | null;
  plus_minus?: number | null;
  part?: string | null;
  method?: string | null;
  scale_step?: number | null;
  history?: (Told & Record<string, unknown>)[];
}

export interface SettingState extends Told {
  value: number;
  unit: string | null;
  from: number | null;
  reason: string | null;
  felt: string | null;
  /** The value in the last baseline, null when it had none. */
  baseline: number | null;
  history?: (Told & { setting: string; unit: string; to: number; from?: number; reason?: string; felt?: string })[];
}

export interface JointState extends Told {
  joint: string;
  applied: number;
  low?: number;
  high?: number;
  accuracy?: number;
  condition?: string;
  tool?: string;
  usual?: boolean;
  note?: string;
  again: boolean;
}

export interface PartState extends Told {
  part: string;
  slot: string;
  name: string;
  count?: number;
  claimed?: number;
  price?: number;
  markings?: Record<string, number | string | boolean>;
  interfaces?: (Record<string, unknown> & { kind: string })[];
  fitted_km: number;
  ran_km: number;
  weighed: number | null;
}

export interface RemovedPart extends Omit<PartState, "weighed"> {
  removed_at: string;
  removed_by: string;
  reason: string | null;
}

export interface Moved {
  setting: string;
  from: number | null;
  to: number;
  by: number | null;
  unit: string | null;
  at: string;
}

export interface Baseline {
  name: string;
  entry: string;
  at: string;
  by: string;
  settings: Record<string, number>;
}

export interface CutState extends Told {
  what: string;
  planned: number;
  result: number;
  unit: string;
  part?: string;
  by_sum?: number;
  by_mark?: number;
  mass_after?: number;
  overruled?: string;
}

export interface CheckState extends Told {
  check: string;
  version: number;
  title?: string;
  scope: "whole" | "part";
  answers: CheckAnswer[];
  started_at?: string;
  finished_at?: string;
  event?: string;
  plate?: string;
  verdict: VerdictWord;
  reasons: Reason[];
}

export interface FaultState extends Told {
  what: string;
  level: "care" | "stop";
  area?: string;
  item?: string;
  check?: string;
  done?: string;
  closed_at?: string;
  closed_by?: string;
}

/** A setting that two people set without having seen each other. `question` is the register's key. */
export interface Question {
  question: string;
  options: { entry: string; value: unknown; at: string; by: string; told: Record<string, unknown> }[];
}

/** What any fold carries. */
export interface State {
  subject: string;
  entries: number;
  voided: string[];
  first_at?: string;
  last_at?: string;
  questions: Question[];
}

/** `kernel/bike.py`: everything the screens show of a bike. Lists are in the order they are shown; checks newest first. */
export interface BikeState extends State {
  described: {
    name: string | null;
    use: string | null;
    rider: string | null;
    weight_goal: number | null;
    scale_step: number | null;
    needed_slots: string[] | null;
    note: string | null;
  };
  parts: PartState[];
  removed: RemovedPart[];
  measures: Record<string, Measured>;
  settings: Record<string, SettingState>;
  moved: Moved[];
  baselines: Baseline[];
  joints: Record<string, JointState>;
  /** By part id; the whole bike under `bike`. */
  weighed: Record<string, Measured>;
  cuts: CutState[];
  checks: CheckState[];
  faults: FaultState[];
  closed: FaultState[];
  km: number;
  hours: number;
  rides: number;
  falls: { entry: string; at: string; by: string }[];
  services: (Told & { job: string; part?: string; note?: string })[];
  photos: (Told & Record<string, unknown>)[];
  snoozes: (Told & { due: string; until: string; reason: string })[];
  intervals: Record<string, unknown>[];
  /** Where it lives, as the calculation `sealant` was put on it with; null: nobody said. */
  climate: string | null;
  ideas: SwapIdea[];
  standing: Standing;
}

/** `kernel/shop.py`: the workshop's own checks and intervals. */
export interface ShopState extends State {
  checks: CheckDefinition[];
  intervals: Record<string, unknown>[];
  interfaces: OwnInterface[];
  /** Empty while the shipped plan holds. */
  plan: PlanStep[];
  tools: TorqueTool[];
}

/** `record.summary`: one line of the list of bikes. */
export interface Summary {
  subject: string;
  name: string | null;
  use: string | null;
  rider: string | null;
  standing: Standing | null;
  faults: number;
  questions: number;
  km: number | null;
  last_at: string | null;
}

/** `kernel/due.py`, gravest first. `left` below zero: past it; null: a happening made it due. */
export interface Due {
  due: string;
  title: string;
  level: "stop" | "care" | "fine" | "coming";
  text: string;
  left: number | null;
  unit: string;
  /** The day it falls on (ISO), by the calendar or by how much the bike is ridden; null when neither tells. */
  on: string | null;
  source: string;
  snoozed: { until: string; reason: string | null; by: string | null } | null;
}

/** `kernel/adjustable.py`: what can be adjusted on a bike. */
export interface Setting {
  setting: string;
  place: string;
  label: string;
  unit: string;
  step: number;
  more: string;
  less: string;
  possible: [number, number];
  usual: [number, number];
}
