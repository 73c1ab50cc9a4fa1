/** What a bike is called, what it is for, whose it is and what it should weigh; only what was changed is written. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { GOAL_MASS } from "../../controls/ranges";
import { TextField } from "../../controls/text-field";
import type { BikeState } from "../../kernel/types";
import { people } from "../../store/record";
import { words } from "../../words";
import { useBike } from "../loading";
import { OnlyLook } from "../only-look";
import { BikeForm, useBikeId } from "./frame";

type Details = Pick<BikeState["described"], "name" | "use" | "rider" | "weight_goal">;

export function Details() {
  const bike = useBike(useBikeId());
  const [touched, setTouched] = useState<Partial<Details>>({});
  const change = (one: Partial<Details>) => setTouched({ ...touched, ...one });
  const changed = bike ? changes(bike.state.described, touched) : {};
  const ready = Object.keys(changed).length > 0 && changed.name !== null;
  return (
    <BikeForm
      title={words.bikes.details}
      said={words.bikes.detailsKept}
      drafts={() => (ready ? [{ kind: "describe", body: changed }] : null)}
    >
      {({ state }) => {
        const shown = { ...state.described, ...touched };
        return (
          <OnlyLook>
            <div class="form">
              <TextField
                label={words.bikes.name}
                value={shown.name ?? ""}
                onChange={(name) => change({ name })}
                help={words.bikes.nameHelp}
              />
              <TextField
                label={words.bikes.use}
                value={shown.use ?? ""}
                onChange={(use) => change({ use })}
                help={words.bikes.useHelp}
                optional
              />
              <Choice
                label={words.bikes.rider}
                options={[
                  { value: "", label: words.nobodyYet },
                  ...people.value.map((one) => ({ value: one.id, label: one.name })),
                ]}
                value={shown.rider ?? ""}
                onChange={(rider) => change({ rider })}
                optional
              />
              <NumberField
                label={words.bikes.weightGoal}
                unit="g"
                value={shown.weight_goal}
                onChange={(weight_goal) => change({ weight_goal })}
                step={10}
                digits={0}
                possible={GOAL_MASS}
                start={8500}
                optional
              />
            </div>
          </OnlyLook>
        );
      }}
    </BikeForm>
  );
}

/** What is to be written: a field that was emptied is told as null, one that says the same as before not at all. */
function changes(before: Details, touched: Partial<Details>): Partial<Details> {
  const told = Object.entries(touched).map(([field, value]) => [
    field,
    typeof value === "string" ? value.trim() || null : value,
  ]);
  return Object.fromEntries(told.filter(([field, value]) => before[field as keyof Details] !== value));
}
