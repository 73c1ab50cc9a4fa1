/** Signs by shape: done is a filled square, ready an open one, blocked one with a bar across. Fits are rings, as marks are. */

import type { FitReport, Held, PlannedStep } from "../../kernel/build-types";
import { w } from "./words";
import "./signs.css";

export function StepSign({ status }: { status: PlannedStep["status"] }) {
  return (
    <svg
      class={`step-sign step-sign-${status}`}
      width="28"
      height="28"
      viewBox="0 0 28 28"
      role="img"
      aria-label={w.plan.status[status]}
    >
      <path d="M5 5 H23 V23 H5 Z" />
      {status === "done" && <path class="step-tick" d="M9 14.5 L12.5 18 L19 10" />}
      {status === "blocked" && <path d="M1 14 H27" />}
    </svg>
  );
}

export type FitResult = FitReport["joints"][number]["result"];

/** Closed ring: fits. Ring open at the top: fits with an adaptor. Ring with a bar: does not fit. Dashed: not known. */
export function FitShape({ result, x, y, r = 9 }: { result: FitResult; x: number; y: number; r?: number }) {
  const gap = r * 0.53;
  const side = r * 0.85;
  return (
    <g class={`fit-shape fit-${result}`}>
      {result === "fits-with" ? (
        <path d={`M${x + gap} ${y - side} A${r} ${r} 0 1 1 ${x - gap} ${y - side}`} />
      ) : (
        <circle cx={x} cy={y} r={r} stroke-dasharray={result === "not-known" ? "4.5 4.5" : undefined} />
      )}
      {result === "does-not-fit" && <path d={`M${x - r - 4} ${y} H${x + r + 4}`} />}
    </g>
  );
}

export function FitSign({ result }: { result: FitResult }) {
  return (
    <svg class="fit-sign" width="28" height="28" viewBox="0 0 28 28" role="img" aria-label={w.fits.results[result]}>
      <FitShape result={result} x={14} y={14} />
    </svg>
  );
}

const HELD: Record<Held, FitResult> = { within: "fits", off: "does-not-fit", "not-known": "not-known" };

export function HeldSign({ result }: { result: Held }) {
  return (
    <svg class="fit-sign" width="28" height="28" viewBox="0 0 28 28" role="img" aria-label={w.held[result]}>
      <FitShape result={HELD[result]} x={14} y={14} />
    </svg>
  );
}
