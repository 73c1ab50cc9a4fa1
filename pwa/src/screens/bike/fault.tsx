/** A fault found: what, where, and whether it stops the bike. */

import { Choice } from "../../controls/choice";
import { TextField } from "../../controls/text-field";
import { words } from "../../words";
import { useHalfWritten } from "../half-written";
import { BikeForm, useBikeId } from "./frame";

interface Fields {
  what: string;
  area: string;
  level: "care" | "stop" | null;
}

export function Fault() {
  const { fields, put, done } = useHalfWritten<Fields>(`fault ${useBikeId()}`, { what: "", area: "", level: null });
  const { what, area, level } = fields;
  return (
    <BikeForm
      title={words.ways.fault}
      said={words.fault.said}
      onRecorded={done}
      drafts={() =>
        what.trim() === "" || level === null
          ? null
          : [{ kind: "fault", body: { what: what.trim(), level, area: area.trim() || undefined } }]
      }
    >
      <TextField label={words.fault.what} value={what} onChange={(next) => put({ what: next })} lines />
      <Choice
        label={words.fault.level}
        options={[
          { value: "stop", label: words.fault.stop },
          { value: "care", label: words.fault.care },
        ]}
        value={level}
        onChange={(next) => put({ level: next })}
      />
      <TextField label={words.fault.area} value={area} onChange={(next) => put({ area: next })} optional />
    </BikeForm>
  );
}
