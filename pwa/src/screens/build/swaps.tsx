/** Swaps that reach the goal at least cost, out of parts somebody has in mind. Ideas and answer are on the bike's record. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { PART_MASS, PRICE } from "../../controls/ranges";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { SwapIdea } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { Answer, BikeState, PartState } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { show } from "../../units";
import { words } from "../../words";
import { spaced } from "../names";
import { useWriting } from "../writing";
import { money } from "./money";
import { w } from "./words";
import "./weigh.css";
import { Problem } from "../../controls/problem";

interface Taken {
  slot: string;
  name: string;
  mass: number;
  cost: number;
}

interface Choices {
  choice: Taken[];
  total: number;
  cost: number;
  feasible: boolean;
  headroom: number;
}

export function Swaps({ state }: { state: BikeState }) {
  const { ideas } = state;
  const [worked, setWorked] = useState<{ answer: Answer; ideas: SwapIdea[] } | null>(null);
  const [asking, setAsking] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const { write, busy } = useWriting();
  const goal = state.described.weight_goal;
  if (goal === null || state.parts.length === 0) return null;
  // What was worked out holds for the ideas there were.
  const answer = worked?.ideas === ideas ? worked.answer : null;
  const inputs = swapInputs(state.parts, ideas, goal);
  const work = async () => {
    setProblem(null);
    try {
      setWorked({ answer: await kernel.run("weight-swaps", inputs), ideas });
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
    }
  };
  const open = leftOut(state);
  const drop = (idea: SwapIdea) =>
    write(
      [{ subject: state.subject, kind: "void", body: { entry: idea.entry, reason: w.swaps.dropped } }],
      w.swaps.gone(idea.name),
    );
  const out = answer === null ? null : (answer.outputs as unknown as Choices);
  const taken = out?.choice.filter((one) => ideas.some((idea) => idea.slot === one.slot && idea.name === one.name)) ?? [];
  return (
    <section class="part">
      <h2>{w.swaps.title}</h2>
      <p class="quiet">{w.swaps.help}</p>
      <ul class="ruled">
        {ideas.map((idea) => (
          <li key={idea.entry} class="swap-idea">
            <span>
              <span class="quiet">{spaced(idea.slot)} </span>
              {idea.name}
            </span>
            <span class="figure">
              {show(idea.mass, "g", 1)} · {money(idea.cost ?? 0)}
            </span>
            <button type="button" class="plain" disabled={busy} onClick={() => void drop(idea)}>
              {words.takeAway}
              <span class="unseen"> {idea.name}</span>
            </button>
          </li>
        ))}
      </ul>
      <div class="buttons">
        <button type="button" class="button small" onClick={() => setAsking(true)}>
          {w.swaps.add}
        </button>
        <button type="button" class="button small" disabled={ideas.length === 0} onClick={() => void work()}>
          {w.swaps.work}
        </button>
      </div>
      <Problem text={problem} />
      {out === null || answer === null ? null : (
        <div class="swap-answer" role="status">
          <p>
            <strong>{out.feasible ? w.swaps.reaches(money(out.cost)) : w.swaps.reachesNot(show(-out.headroom, "g", 0))}</strong>{" "}
            {w.swaps.weighsThen(show(out.total, "g", 0))}
          </p>
          {open.length > 0 ? (
            <p>
              <strong>{w.swaps.notAll}</strong> {open.join(", ")}
            </p>
          ) : null}
          <ul class="ruled">
            {taken.map((one) => (
              <li key={one.slot} class="swap-idea">
                <span>
                  <span class="quiet">{spaced(one.slot)} </span>
                  <strong>{one.name}</strong>
                </span>
                <span class="figure">
                  {show(one.mass, "g", 1)} · {money(one.cost)}
                </span>
              </li>
            ))}
          </ul>
          {taken.length === 0 ? <p>{w.swaps.none}</p> : null}
          <p class="quiet">{w.swaps.caution}</p>
          <button
            type="button"
            class="button small"
            disabled={busy}
            onClick={() =>
              void write(
                [
                  {
                    subject: state.subject,
                    kind: "calculate",
                    body: { calculation: "weight-swaps", inputs, outputs: answer.outputs },
                  },
                ],
                w.swaps.recorded,
              )
            }
          >
            {w.swaps.keep}
          </button>
        </div>
      )}
      {asking ? <AddIdea subject={state.subject} parts={state.parts} onClose={() => setAsking(false)} /> : null}
    </section>
  );
}

/** What no total counts yet: slots without a part, parts without any figure. */
function leftOut({ parts, described }: BikeState): string[] {
  const empty = (described.needed_slots ?? []).filter((slot) => !parts.some((part) => part.slot === slot));
  return [...empty.map((slot) => small(spaced(slot))), ...parts.filter((part) => massOf(part) === 0).map(({ name }) => name)];
}

function massOf(part: PartState): number {
  return part.weighed ?? (part.claimed ?? 0) * (part.count ?? 1);
}

/** What stays is the base; each slot with an idea has what is on now, at no cost, and the ideas. */
function swapInputs(parts: PartState[], ideas: SwapIdea[], target: number): Record<string, unknown> {
  const slots = [...new Set(ideas.map((idea) => idea.slot))];
  const stays = parts.filter((part) => !slots.includes(part.slot));
  return {
    base: stays.reduce((sum, part) => sum + massOf(part), 0),
    target,
    slots: slots.map((slot) => {
      const on = parts.filter((part) => part.slot === slot);
      const now =
        on.length === 0
          ? []
          : [
              {
                name: w.swaps.onNow(on.map((part) => part.name).join(", ")),
                mass: on.reduce((sum, part) => sum + massOf(part), 0),
                cost: 0,
              },
            ];
      return {
        slot,
        options: [
          ...now,
          ...ideas.filter((idea) => idea.slot === slot).map(({ name, mass, cost }) => ({ name, mass, cost: cost ?? 0 })),
        ],
      };
    }),
  };
}

function AddIdea({ subject, parts, onClose }: { subject: string; parts: PartState[]; onClose: () => void }) {
  const [slot, setSlot] = useState<string | null>(null);
  const [name, setName] = useState("");
  const [mass, setMass] = useState<number | null>(null);
  const [cost, setCost] = useState<number | null>(null);
  const { write, busy, problem } = useWriting();
  const record = async () => {
    const body = { slot, name: name.trim(), mass, cost: cost ?? undefined };
    if ((await write([{ subject, kind: "swap-idea", body }], w.swaps.added(body.name))) !== null) onClose();
  };
  const on = parts.find((part) => part.slot === slot);
  const slots = [...new Set(parts.map((part) => part.slot))];
  return (
    <Sheet title={w.swaps.add} onClose={onClose}>
      <Choice
        label={w.parts.slot}
        options={slots.map((one) => ({ value: one, label: spaced(one) }))}
        value={slot}
        onChange={setSlot}
      />
      {on === undefined ? null : <p class="quiet">{w.swaps.nowIs(on.name, show(massOf(on), "g", 1))}</p>}
      <TextField label={w.parts.name} value={name} onChange={setName} />
      <NumberField
        label={w.swaps.mass}
        unit="g"
        value={mass}
        onChange={setMass}
        step={1}
        digits={1}
        possible={PART_MASS}
        start={on === undefined ? 200 : massOf(on)}
      />
      <NumberField
        label={w.swaps.cost}
        unit=""
        value={cost}
        onChange={setCost}
        step={5}
        digits={2}
        possible={PRICE}
        start={50}
      />
      <Problem text={problem} />
      <button
        type="button"
        class="button main wide"
        disabled={busy || slot === null || slot === "" || name.trim() === "" || mass === null}
        onClick={() => void record()}
      >
        {words.done}
      </button>
    </Sheet>
  );
}
