/** What the kernel's declarations and answers look like. The Python kernel is the authority; these are its shapes. */

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
