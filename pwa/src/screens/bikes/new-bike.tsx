/** A new bike: its name, what it is for, whose it is. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { Problem } from "../../controls/problem";
import { GOAL_MASS } from "../../controls/ranges";
import { TextField } from "../../controls/text-field";
import { people } from "../../store/record";
import { words } from "../../words";
import { Page } from "../shell/page";
import { useWriting } from "../writing";

export function NewBike() {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const [name, setName] = useState("");
  const [use, setUse] = useState("");
  const [rider, setRider] = useState<string | null>(null);
  const [goal, setGoal] = useState<number | null>(null);
  const record = async () => {
    const id = crypto.randomUUID();
    const body = {
      name: name.trim(),
      use: use.trim() || undefined,
      rider: rider || undefined,
      weight_goal: goal ?? undefined,
    };
    const made = await write([{ subject: `bike/${id}`, kind: "describe", body }], words.bikes.made(name.trim()));
    if (made !== null) route(`/bike/${id}`, true);
  };
  return (
    <Page
      place="bikes"
      title={words.bikes.newBike}
      from={[{ href: "/", text: words.places.bikes }]}
      foot={
        <div class="foot-act">
          <Problem text={problem} />
          <button type="button" class="button main" disabled={busy || name.trim() === ""} onClick={() => void record()}>
            {words.record}
          </button>
        </div>
      }
    >
      <div class="form">
        <TextField label={words.bikes.name} value={name} onChange={setName} help={words.bikes.nameHelp} />
        <TextField label={words.bikes.use} value={use} onChange={setUse} help={words.bikes.useHelp} optional />
        <Choice
          label={words.bikes.rider}
          options={[{ value: "", label: words.nobodyYet }, ...people.value.map((one) => ({ value: one.id, label: one.name }))]}
          value={rider}
          onChange={setRider}
          optional
        />
        <NumberField
          label={words.bikes.weightGoal}
          unit="g"
          value={goal}
          onChange={setGoal}
          step={10}
          digits={0}
          possible={GOAL_MASS}
          start={8500}
          optional
        />
      </div>
    </Page>
  );
}
