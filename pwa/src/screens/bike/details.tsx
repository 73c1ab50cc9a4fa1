/** What a bike is called, what it is for, whose it is and what it should weigh; only what was changed is written. */

import { useState } from "preact/hooks";
import { words } from "../../words";
import { type Details as Described, Describing } from "../bikes/describing";
import { useBike } from "../loading";
import { OnlyLook } from "../only-look";
import { BikeForm, useBikeId } from "./frame";

export function Details() {
  const bike = useBike(useBikeId());
  const [touched, setTouched] = useState<Partial<Described>>({});
  const change = (one: Partial<Described>) => setTouched({ ...touched, ...one });
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
            <Describing details={{ ...shown, rider: shown.rider ?? "" }} onChange={change} />
          </OnlyLook>
        );
      }}
    </BikeForm>
  );
}

/** What is to be written: a field that was emptied is told as null, one that says the same as before not at all. */
function changes(before: Described, touched: Partial<Described>): Partial<Described> {
  const told = Object.entries(touched).map(([field, value]) => [
    field,
    typeof value === "string" ? value.trim() || null : value,
  ]);
  return Object.fromEntries(told.filter(([field, value]) => before[field as keyof Described] !== value));
}
