/** The weight a bike should come to: set where none stands yet, changed in a sheet of its own. */

import { useState } from "preact/hooks";
import { GoalField } from "../../controls/goal-field";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import type { BikeState } from "../../kernel/types";
import { useWriting } from "../writing";
import { w } from "./words";

export function SetGoal({ state }: { state: BikeState }) {
  return (
    <section class="part">
      <h2>{w.weigh.goal}</h2>
      <Goal state={state} />
    </section>
  );
}

export function ChangeGoal({ state }: { state: BikeState }) {
  const [changing, setChanging] = useState(false);
  return (
    <>
      <button type="button" class="button small" onClick={() => setChanging(true)}>
        {w.weigh.changeGoal}
      </button>
      {changing ? (
        <Sheet title={w.weigh.changeGoal} onClose={() => setChanging(false)}>
          <Goal state={state} onSet={() => setChanging(false)} />
        </Sheet>
      ) : null}
    </>
  );
}

function Goal({ state, onSet }: { state: BikeState; onSet?: () => void }) {
  const goal = state.described.weight_goal;
  const [setting, setSetting] = useState<number | null>(goal);
  const { write, busy, problem } = useWriting();
  const record = async () => {
    const draft = { subject: state.subject, kind: "describe", body: { weight_goal: setting } };
    if ((await write([draft], w.weigh.goalSet)) !== null) onSet?.();
  };
  return (
    <>
      <GoalField label={w.weigh.goal} value={setting} onChange={setSetting} />
      <Problem text={problem} />
      <button
        type="button"
        class="button wide"
        disabled={busy || setting === null || setting === goal}
        onClick={() => void record()}
      >
        {w.weigh.setGoal}
      </button>
    </>
  );
}
