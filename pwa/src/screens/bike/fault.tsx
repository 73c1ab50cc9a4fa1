/** A fault found: what, where, and whether it stops the bike. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { TextField } from "../../controls/text-field";
import { words } from "../../words";
import { BikeForm } from "./frame";

export function Fault() {
  const [what, setWhat] = useState("");
  const [area, setArea] = useState("");
  const [level, setLevel] = useState<"care" | "stop" | null>(null);
  return (
    <BikeForm
      title={words.ways.fault}
      said={words.fault.said}
      drafts={() =>
        what.trim() === "" || level === null
          ? null
          : [{ kind: "fault", body: { what: what.trim(), level, area: area.trim() || undefined } }]
      }
    >
      <TextField label={words.fault.what} value={what} onChange={setWhat} lines />
      <Choice
        label={words.fault.level}
        options={[
          { value: "stop", label: words.fault.stop },
          { value: "care", label: words.fault.care },
        ]}
        value={level}
        onChange={setLevel}
      />
      <TextField label={words.fault.area} value={area} onChange={setArea} optional />
    </BikeForm>
  );
}
