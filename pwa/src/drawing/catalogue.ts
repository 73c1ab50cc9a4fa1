/** Which calculation has a drawing. A calculation without one needs nothing here. */

import type { ComponentType } from "preact";
import { SteererDrawing } from "./steerer";

export interface FigureProps {
  /** Plain values in base units, a ± taken off. */
  inputs: Record<string, unknown>;
  outputs: Record<string, unknown> | null;
}

const FIGURES: Record<string, ComponentType<FigureProps>> = {
  "steerer-cut": SteererDrawing,
};

export function figureFor(calculation: string): ComponentType<FigureProps> | null {
  return FIGURES[calculation] ?? null;
}
