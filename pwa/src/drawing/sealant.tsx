/** Days since the last sealant on a ruled scale, and the day by which to top up. */

import { show } from "../units";
import type { FigureProps } from "./catalogue";
import type { Pointer } from "./pointer-places";
import { num } from "./reading";
import { RuledDrawing } from "./ruled";
import type { BandOn } from "./scale";
import { drawingWords as say } from "./words";

export function SealantDrawing({ inputs, outputs }: FigureProps) {
  const since = num(inputs, "days_since");
  const left = num(outputs, "top_up_in");
  const volume = num(outputs, "volume");
  const due = since === null || left === null ? null : since + left;
  const days = (value: number) => show(value, "days", 0);
  const high = Math.max(since ?? 0, due ?? 0, 90) * 1.15;
  const late = left !== null && left <= 0;
  const pointers: Pointer[] = [];
  if (since !== null) pointers.push({ value: since, text: `${say.now} ${days(since)}`, tone: late ? "stop" : "blue" });
  if (due !== null) pointers.push({ value: due, text: `${say.topUp} ${days(due)}`, dashed: true });
  const bands: BandOn[] =
    due === null
      ? []
      : [
          { from: 0, to: due, kind: "fine" },
          { from: due, to: high, kind: "care" },
        ];
  return (
    <RuledDrawing
      says={say.sealant(volume === null ? null : show(volume, "ml", 0), left === null ? null : days(left))}
      low={0}
      high={high}
      base="days"
      rows={[{ pointers, bands }]}
      note={volume === null ? null : say.toPutIn(show(volume, "ml", 0))}
    />
  );
}
