/** What a bike is called, what it is for, whose it is and what it should weigh: the fields of a new bike and of one that is changed. */

import { Choice } from "../../controls/choice";
import { GoalField } from "../../controls/goal-field";
import { TextField } from "../../controls/text-field";
import type { BikeState } from "../../kernel/types";
import { people } from "../../store/record";
import { words } from "../../words";

export type Details = Pick<BikeState["described"], "name" | "use" | "rider" | "weight_goal">;

export function Describing({ details, onChange }: { details: Details; onChange: (changed: Partial<Details>) => void }) {
  return (
    <div class="form">
      <TextField
        label={words.bikes.name}
        value={details.name ?? ""}
        onChange={(name) => onChange({ name })}
        help={words.bikes.nameHelp}
      />
      <TextField
        label={words.bikes.use}
        value={details.use ?? ""}
        onChange={(use) => onChange({ use })}
        help={words.bikes.useHelp}
        optional
      />
      <Choice
        label={words.bikes.rider}
        options={[{ value: "", label: words.nobodyYet }, ...people.value.map((one) => ({ value: one.id, label: one.name }))]}
        value={details.rider}
        onChange={(rider) => onChange({ rider })}
        optional
      />
      <GoalField
        label={words.bikes.weightGoal}
        value={details.weight_goal}
        onChange={(weight_goal) => onChange({ weight_goal })}
        optional
      />
    </div>
  );
}
