/** A new bike: its name, what it is for, whose it is. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Problem } from "../../controls/problem";
import { words } from "../../words";
import { Page } from "../shell/page";
import { useWriting } from "../writing";
import { Describing, type Details } from "./describing";

export function NewBike() {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const [details, setDetails] = useState<Details>({ name: "", use: "", rider: null, weight_goal: null });
  const name = details.name?.trim() ?? "";
  const record = async () => {
    const id = crypto.randomUUID();
    const body = {
      name,
      use: details.use?.trim() || undefined,
      rider: details.rider || undefined,
      weight_goal: details.weight_goal ?? undefined,
    };
    const made = await write([{ subject: `bike/${id}`, kind: "describe", body }], words.bikes.made(name));
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
          <button type="button" class="button main" disabled={busy || name === ""} onClick={() => void record()}>
            {words.record}
          </button>
        </div>
      }
    >
      <Describing details={details} onChange={(changed) => setDetails({ ...details, ...changed })} />
    </Page>
  );
}
