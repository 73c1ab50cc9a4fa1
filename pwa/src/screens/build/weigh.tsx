/** Weigh-in: the figure straight from the scale, part by part; the running total against the goal, with all it leaves out. */

import { useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { NumberField } from "../../controls/number-field";
import { BIKE_MASS } from "../../controls/ranges";
import { kernel } from "../../kernel/client";
import type { Answer, BikeState, PartState } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import { spaced } from "../names";
import { dateOf, nameOf } from "../when";
import { useWriting } from "../writing";
import { useTried } from "./asked";
import { ChangeGoal, SetGoal } from "./goal";
import { Refusals } from "./refusals";
import { SheetPage } from "./sheet-page";
import { slotOrder } from "./slots";
import { Swaps } from "./swaps";
import { w } from "./words";
import "./weigh.css";
import { Problem } from "../../controls/problem";

const BIKE = "bike";

export function Weigh() {
  return <SheetPage title={w.weigh.title}>{({ state }) => <Scale state={state} />}</SheetPage>;
}

function Scale({ state }: { state: BikeState }) {
  const { query } = useRoute();
  const parts = [...state.parts].sort((a, b) => slotOrder(a.slot) - slotOrder(b.slot));
  const first = parts.find((part) => part.part === query.part) ?? parts.find((part) => part.weighed === null);
  const [chosen, setChosen] = useState<string>(first?.part ?? BIKE);
  const [mass, setMass] = useState<number | null>(null);
  const { write, busy, problem } = useWriting();
  const part = parts.find((one) => one.part === chosen);
  const step = state.described.scale_step ?? 1;
  const record = async () => {
    if (mass === null) return;
    const body = { mass, part: part?.part, scale_step: step };
    const said = `${part?.name ?? w.weigh.wholeBike}: ${show(mass, "g", 1)}`;
    if ((await write([{ subject: state.subject, kind: "weigh", body }], said)) === null) return;
    setMass(null);
    const next = parts.find((one) => one.weighed === null && one.part !== chosen);
    setChosen(next?.part ?? BIKE);
  };
  const whole = state.weighed.bike;
  return (
    <>
      <section class="part scale">
        <h2>{part?.name ?? w.weigh.wholeBike}</h2>
        <p class="quiet">{part === undefined ? w.weigh.wholeHelp : `${spaced(part.slot)}${claim(part)}`}</p>
        <NumberField
          key={chosen}
          label={w.weigh.onScale}
          unit="g"
          value={mass}
          onChange={setMass}
          step={step}
          digits={1}
          possible={BIKE_MASS}
          start={part?.weighed ?? part?.claimed ?? whole?.value ?? 300}
          big
        />
        <Problem text={problem} />
        <button type="button" class="button main wide" disabled={busy || mass === null} onClick={() => void record()}>
          {words.record}
        </button>
      </section>
      <Budget state={state} />
      <section class="part">
        <h2>{w.weigh.list}</h2>
        <ul class="ruled">
          {parts.map((one) => (
            <li key={one.part}>
              <button type="button" class="weigh-line" aria-pressed={one.part === chosen} onClick={() => choose(one.part)}>
                <span>
                  <span class="quiet">{spaced(one.slot)} </span>
                  {one.name}
                </span>
                <Figures part={one} />
              </button>
            </li>
          ))}
          <li>
            <button type="button" class="weigh-line" aria-pressed={chosen === BIKE} onClick={() => choose(BIKE)}>
              <strong>{w.weigh.wholeBike}</strong>
              <span class="figure">
                {whole === undefined ? w.weigh.notWeighed : show(whole.value, "g", 0)}
                {whole === undefined ? null : (
                  <span class="quiet">
                    {" "}
                    {dateOf(whole.at)}, {nameOf(whole.by)}
                  </span>
                )}
              </span>
            </button>
          </li>
        </ul>
      </section>
      <Swaps state={state} />
    </>
  );

  function choose(one: string): void {
    setChosen(one);
    setMass(null);
    scrollTo(0, 0);
  }
}

function claim(part: PartState): string {
  return part.claimed === undefined || part.claimed === null ? "" : ` · ${w.weigh.claims(show(part.claimed, "g", 0))}`;
}

function Figures({ part }: { part: PartState }) {
  const claimed = part.claimed ?? null;
  if (part.weighed === null)
    return <span class="figure quiet">{claimed === null ? "?" : `(${formatNumber(claimed, 0)})`}</span>;
  const over = claimed === null ? null : part.weighed - claimed;
  return (
    <span class="figure">
      {show(part.weighed, "g", 1)}
      {over === null ? null : (
        <span class="quiet">
          {" "}
          {over > 0 ? "+" : ""}
          {formatNumber(over, 1)}
        </span>
      )}
    </span>
  );
}

interface BudgetOutputs {
  total: number;
  complete: boolean | null;
  sd: number | null;
  headroom: number;
  chance: number | null;
  overrun: number | null;
  not_weighed: { name: string; slot: string }[];
  missing_slots: { slot: string }[];
}

/** The inputs of the weight budget; a part with neither figure is left for the calculation to name. */
function budgetInputs(state: BikeState): Record<string, unknown> {
  const parts = state.parts.map((part) => ({
    name: part.name,
    slot: part.slot,
    count: part.count ?? 1,
    claimed: part.claimed ?? undefined,
    // A weighing is of all the pieces in the slot, a claim of one.
    weighed: part.weighed === null ? undefined : part.weighed / (part.count ?? 1),
  }));
  return {
    parts,
    target: state.described.weight_goal,
    scale_step: state.described.scale_step ?? 1,
    needed_slots: state.described.needed_slots?.map((slot) => ({ slot })),
  };
}

function Budget({ state }: { state: BikeState }) {
  const goal = state.described.weight_goal;
  const known = state.parts.filter((part) => part.weighed !== null || (part.claimed ?? null) !== null);
  const blank = state.parts.length - known.length;
  const inputs = budgetInputs({ ...state, parts: known });
  const { answer, refused } = useTried<Answer | null>(
    () => (goal === null || known.length === 0 ? Promise.resolve(null) : kernel.run("weight-budget", inputs)),
    state,
  );
  if (goal === null) return <SetGoal state={state} />;
  if (refused !== null) {
    return (
      <section class="part">
        <h2>{w.weigh.budget}</h2>
        <Refusals calculation="weight-budget" refused={refused} inputs={inputs} />
        <ChangeGoal state={state} />
      </section>
    );
  }
  if (answer === undefined) return <p class="quiet">{words.reading}</p>;
  if (answer === null) {
    return (
      <section class="part">
        <h2>{w.weigh.goal}</h2>
        <p>
          <span class="figure">{show(goal, "g", 0)}</span> {w.weigh.nothingYet}
        </p>
        <ChangeGoal state={state} />
      </section>
    );
  }
  const out = answer.outputs as unknown as BudgetOutputs;
  const blanks = state.parts.filter((part) => !known.includes(part));
  return (
    <section class="part">
      <h2>{w.weigh.budget}</h2>
      <p class="budget-total">
        <span class="figure">{show(out.total, "g", 0)}</span>
        <span>
          {w.weigh.of(show(goal, "g", 0))}
          {out.sd === null ? "" : ` · ± ${formatNumber(out.sd, 0)} g`}
        </span>
      </p>
      <Bar total={out.total} goal={goal} />
      <p>
        <strong>
          {out.headroom >= 0 ? w.weigh.under(show(out.headroom, "g", 0)) : w.weigh.over(show(-out.headroom, "g", 0))}
        </strong>
        {out.missing_slots.length + blank > 0
          ? ` ${w.weigh.notATotal}`
          : out.chance === null
            ? ""
            : ` ${w.weigh.chance(percentOf(out.chance))}`}
      </p>
      {out.overrun === null ? null : (
        <p class="quiet">{w.weigh.overrun(`${out.overrun > 0 ? "+" : ""}${formatNumber(out.overrun, 1)} %`)}</p>
      )}
      {out.missing_slots.length > 0 && (
        <p>
          <strong>{w.weigh.missing}</strong> {out.missing_slots.map((one) => small(spaced(one.slot))).join(", ")}
        </p>
      )}
      {blanks.length > 0 && (
        <p>
          <strong>{w.weigh.noFigure}</strong> {blanks.map((one) => one.name).join(", ")}
        </p>
      )}
      {out.not_weighed.length > 0 && (
        <p>
          <strong>{w.weigh.onlyClaimed}</strong> {out.not_weighed.map((one) => one.name).join(", ")}
        </p>
      )}
      <ChangeGoal state={state} />
    </section>
  );
}

/** The total along a rule, the goal as a datum line. */
function Bar({ total, goal }: { total: number; goal: number }) {
  const most = Math.max(total, goal) * 1.04;
  const at = (mass: number) => (mass / most) * 358;
  return (
    <svg class="budget-bar" viewBox="0 0 358 34" aria-hidden="true" focusable="false">
      <path class="member-thin" d="M0 22 H358" />
      <path class={total > goal ? "budget-fill budget-over" : "budget-fill"} d={`M0 12 H${at(total)} V22 H0 Z`} />
      <path class="cut" d={`M${at(goal)} 4 V30`} />
    </svg>
  );
}

/** A chance is never told as certain. */
function percentOf(chance: number): string {
  if (chance > 0.99) return "> 99\u00a0%";
  if (chance < 0.01) return "< 1\u00a0%";
  return `${formatNumber(chance * 100, 0)}\u00a0%`;
}
