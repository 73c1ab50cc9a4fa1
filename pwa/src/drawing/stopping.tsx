/** The stop on a ruled distance: where it ended, and how far the test allows. */

import { show } from "../units";
import type { FigureProps } from "./catalogue";
import type { Pointer } from "./pointer-places";
import { num } from "./reading";
import { RuledDrawing } from "./ruled";
import type { BandOn } from "./scale";
import { drawingWords as say } from "./words";

export function StoppingDrawing({ inputs, outputs }: FigureProps) {
  const stopped = num(inputs, "distance");
  const atReference = num(outputs, "distance_at_reference");
  const reference = num(outputs, "reference");
  const metres = (value: number) => show(value, "m", 1);
  const high = Math.max(stopped ?? 0, atReference ?? 0, reference ?? 0, 4) * 1.15;
  const long = atReference !== null && reference !== null && atReference > reference;
  const pointers: Pointer[] = [];
  if (reference !== null) pointers.push({ value: reference, text: `${say.reference} ${metres(reference)}`, dashed: true });
  if (stopped !== null) pointers.push({ value: stopped, text: `${say.stoppedIn} ${metres(stopped)}` });
  if (atReference !== null)
    pointers.push({ value: atReference, text: `${say.atTestSpeed} ${metres(atReference)}`, tone: long ? "stop" : "blue" });
  const bands: BandOn[] =
    reference === null
      ? []
      : [
          { from: 0, to: reference, kind: "fine" },
          { from: reference, to: high, kind: "stop" },
        ];
  return (
    <RuledDrawing
      says={say.stopping(stopped === null ? null : metres(stopped), reference === null ? null : metres(reference))}
      low={0}
      high={high}
      base="m"
      rows={[{ pointers, bands }]}
    />
  );
}
