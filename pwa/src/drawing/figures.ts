/** Figures on a drawing: in the person's unit, which the drawing names once instead of at every dimension. */

import { digitsIn, formatNumber, fromBase, unitOf } from "../units";

export function figure(mm: number, digits = 1): string {
  const unit = unitOf("mm");
  return formatNumber(fromBase(mm, unit, "mm"), digitsIn(unit, "mm", digits));
}
