/** Torque and the bolt's load on ruled scales. */

import { show } from "../units";
import type { FigureProps } from "./catalogue";
import type { Pointer } from "./pointer-places";
import { num, said } from "./reading";
import { RuledDrawing } from "./ruled";
import type { BandOn } from "./scale";
import { drawingWords as say } from "./words";

/** The band allowed, what was applied, and how far the tool may be off. */
export function TorqueCheckDrawing({ inputs, outputs }: FigureProps) {
  const applied = num(inputs, "applied");
  const [from, to] = [num(inputs, "spec_low"), num(inputs, "spec_high")];
  const [low, high] = [num(outputs, "low"), num(outputs, "high")];
  const torque = (value: number) => show(value, "N·m", 1);
  const all = [applied, from, to, low, high].filter((value) => value !== null);
  const [least, most] = all.length === 0 ? [0, 10] : [Math.min(...all), Math.max(...all)];
  const air = Math.max((most - least) * 0.4, most * 0.06, 0.5);
  const within = said(outputs, "verdict") === "within";
  const pointers: Pointer[] = [];
  if (from !== null) pointers.push({ value: from, text: say.lowest(torque(from)), dashed: true });
  if (to !== null) pointers.push({ value: to, text: say.highest(torque(to)), dashed: true });
  if (applied !== null)
    pointers.push({ value: applied, text: torque(applied), tone: outputs === null || within ? "blue" : "stop" });
  const bands: BandOn[] = from !== null && to !== null && to > from ? [{ from, to, kind: "fine" }] : [];
  return (
    <RuledDrawing
      says={say.torqueCheck(
        applied === null ? null : torque(applied),
        from === null ? null : torque(from),
        to === null ? null : torque(to),
      )}
      low={Math.max(0, least - air)}
      high={most + air}
      base="N·m"
      rows={[{ pointers, bands, whisker: low === null || high === null ? null : { from: low, to: high } }]}
    />
  );
}

/** How much of its proof load the bolt is pulled to. */
export function BoltPreloadDrawing({ outputs }: FigureProps) {
  const use = num(outputs, "proof_use");
  const preload = num(outputs, "preload");
  const shown = use === null ? null : show(use, "%", 0);
  const top = Math.max(125, (use ?? 0) * 1.1);
  const bands: BandOn[] = [
    { from: 75, to: 100, kind: "care" },
    { from: 100, to: top, kind: "stop" },
  ];
  if (use !== null) bands.unshift({ from: 0, to: Math.min(use, 75), kind: "blue" });
  const pointers: Pointer[] =
    use === null ? [] : [{ value: use, text: say.proofUse(show(use, "%", 0)), tone: use > 100 ? "stop" : "blue" }];
  return (
    <RuledDrawing
      says={say.proof(shown)}
      low={0}
      high={top}
      base="%"
      rows={[{ pointers, bands }]}
      note={preload === null ? null : say.clamp(show(preload, "N", 0))}
    />
  );
}
