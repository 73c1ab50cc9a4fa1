/** The saddle's height and setback carried over; what comes out is taken as the target. */

import { Finding } from "../../controls/finding";
import { Problem } from "../../controls/problem";
import { InputProblems, kernel } from "../../kernel/client";
import type { Answer, BikeState } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { show } from "../../units";
import { useAsked } from "../build/asked";
import { w } from "../build/words";
import { useNames } from "../names";
import { useWriting } from "../writing";

const CALCULATION = "saddle-transfer";
const NEEDED = [
  "saddle_height",
  "saddle_setback",
  "crank_old",
  "crank_new",
  "seat_angle",
  "post_offset",
  "rail_to_top",
  "rail_range",
  "seat_tube",
  "post_length",
  "min_insertion",
];
const MAY = ["pedal_stack_old", "pedal_stack_new", "reference_ahead"];
const SHOWN = ["saddle_height_new", "rail_shift", "post_exposed", "post_inserted"] as const;

export function SaddleTransfer({ state }: { state: BikeState }) {
  const names = useNames();
  const inputs: Record<string, unknown> = {};
  for (const name of [...NEEDED, ...MAY]) {
    const value = state.measures[name]?.value;
    if (value !== undefined) inputs[name] = value;
  }
  // What is marked on the post is at least what it needs.
  const marked = state.parts
    .map((part) => part.markings?.min_insertion)
    .filter((one): one is number => typeof one === "number");
  if (marked.length > 0) inputs.min_insertion = Math.max(...marked, (inputs.min_insertion as number | undefined) ?? 0);
  const missing = NEEDED.filter((name) => inputs[name] === undefined);
  const found = useAsked<Answer | string | null>(async () => {
    if (missing.length > 0) return null;
    try {
      return await kernel.run(CALCULATION, inputs);
    } catch (error) {
      if (error instanceof InputProblems) return error.message;
      throw error;
    }
  }, JSON.stringify(inputs));
  const { write, busy, problem } = useWriting();
  const out = (typeof found === "object" && found !== null ? found.outputs : null) as Record<string, number> | null;
  const take = async () => {
    if (out === null) return;
    const { subject } = state;
    const measure = (what: string, value: number | undefined, unit: string) =>
      value === undefined
        ? []
        : [{ subject, kind: "measure", body: { what, value: Number(value.toFixed(2)), unit, method: w.position.byTransfer } }];
    await write(
      [
        { subject, kind: "calculate", body: { calculation: CALCULATION, inputs, outputs: out } },
        ...measure("target_saddle_height", out.saddle_height_new, "mm"),
        ...measure("target_saddle_setback", out.saddle_x === undefined ? undefined : -out.saddle_x, "mm"),
        ...measure("target_saddle_tilt", state.measures.saddle_tilt?.value, "°"),
      ],
      w.position.saddleTaken(show(out.saddle_height_new ?? 0, "mm", 1)),
    );
  };
  return (
    <section class="part">
      <h2>{w.position.saddle}</h2>
      {missing.length > 0 ? (
        <p>{w.position.needs(missing.map((name) => small(w.position.names[name] ?? names.of(name).label)))}</p>
      ) : null}
      {typeof found === "string" ? <p class="problem">{found}</p> : null}
      {out === null || found === null || typeof found !== "object" ? null : (
        <>
          <dl class="told-pairs">
            {SHOWN.map((name) => (
              <div key={name}>
                <dt>{w.position.saddleNames[name]}</dt>
                <dd class="figure">{show(out[name] ?? 0, "mm", 1)}</dd>
              </div>
            ))}
          </dl>
          {found.findings.map((one) => (
            <Finding key={one.text} level={one.level} text={one.text} />
          ))}
          <Problem text={problem} />
          <button type="button" class="button main wide" disabled={busy} onClick={() => void take()}>
            {w.position.takeSaddle}
          </button>
        </>
      )}
    </section>
  );
}
