/** Which calculation has a drawing. Fetched when its sheet is opened; a calculation without one needs nothing here. */

import { type ComponentType, h } from "preact";
import { useEffect, useState } from "preact/hooks";
import "./drawing.css";

export interface FigureProps {
  /** Plain values in base units, a ± taken off. */
  inputs: Record<string, unknown>;
  outputs: Record<string, unknown> | null;
}

type Figure = ComponentType<FigureProps>;

const FIGURES: Record<string, () => Promise<Figure>> = {
  "steerer-cut": () => import("./steerer").then((m) => m.SteererDrawing),
  "bar-position": () => import("./bar-position").then((m) => m.BarPositionDrawing),
  "position-transfer": () => import("./position-transfer").then((m) => m.PositionTransferDrawing),
  "saddle-transfer": () => import("./saddle-side").then((m) => m.SaddleDrawing),
  "steering-geometry": () => import("./steering").then((m) => m.SteeringDrawing),
  "angle-change": () => import("./tilt").then((m) => m.TiltDrawing),
  "hose-slack": () => import("./hose").then((m) => m.HoseDrawing),
  "chain-length": () => import("./chain-line").then((m) => m.ChainLineDrawing),
  "chain-wear": () => import("./chain-wear").then((m) => m.ChainWearDrawing),
  "gear-table": () => import("./gear-ladder").then((m) => m.GearLadderDrawing),
  "climb-gear": () => import("./climb").then((m) => m.ClimbDrawing),
  "hanger-alignment": () => import("./hanger").then((m) => m.HangerDrawing),
  rollout: () => import("./rollout").then((m) => m.RolloutDrawing),
  "rim-fit": () => import("./rim-fit").then((m) => m.RimFitDrawing),
  "tyre-drop": () => import("./tyre-drop").then((m) => m.TyreDropDrawing),
  "tyre-pressure": () => import("./pressures").then((m) => m.TyrePressureDrawing),
  "pressure-change": () => import("./pressures").then((m) => m.PressureChangeDrawing),
  inflate: () => import("./pressures").then((m) => m.InflateDrawing),
  sealant: () => import("./sealant").then((m) => m.SealantDrawing),
  "spoke-length": () => import("./spoke").then((m) => m.SpokeDrawing),
  "spoke-tension": () => import("./spoke-tone").then((m) => m.SpokeToneDrawing),
  "tension-balance": () => import("./tension-rose").then((m) => m.TensionRoseDrawing),
  "torque-adaptor": () => import("./torque-adaptor").then((m) => m.TorqueAdaptorDrawing),
  "torque-check": () => import("./torques").then((m) => m.TorqueCheckDrawing),
  "bolt-preload": () => import("./torques").then((m) => m.BoltPreloadDrawing),
  "weight-budget": () => import("./weights").then((m) => m.WeightBudgetDrawing),
  "weight-swaps": () => import("./weights").then((m) => m.WeightSwapsDrawing),
  "wear-forecast": () => import("./wear").then((m) => m.WearDrawing),
  "stopping-check": () => import("./stopping").then((m) => m.StoppingDrawing),
};

const made = new Map<string, Figure>();

/** Keeps the sheet's place while the drawing comes; one that cannot be fetched is left out, the figures stand without it. */
function fetched(load: () => Promise<Figure>): Figure {
  let here: Figure | null = null;
  return function Fetched(props: FigureProps) {
    const [drawing, setDrawing] = useState<{ of: Figure | null }>({ of: here });
    useEffect(() => {
      if (here !== null) return;
      load().then(
        (figure) => {
          here = figure;
          setDrawing({ of: figure });
        },
        () => undefined,
      );
    }, []);
    return drawing.of === null ? h("div", { class: "drawing-coming" }) : h(drawing.of, props);
  };
}

export function figureFor(calculation: string): Figure | null {
  const load = FIGURES[calculation];
  if (load === undefined) return null;
  const known = made.get(calculation) ?? fetched(load);
  made.set(calculation, known);
  return known;
}
