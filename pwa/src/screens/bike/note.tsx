/** A note, in words. */

import { TextField } from "../../controls/text-field";
import { words } from "../../words";
import { useHalfWritten } from "../half-written";
import { BikeForm, useBikeId } from "./frame";

export function Note() {
  const { fields, put, done } = useHalfWritten(`note ${useBikeId()}`, { text: "" });
  const text = fields.text.trim();
  return (
    <BikeForm
      title={words.ways.note}
      said={words.noted}
      drafts={() => (text === "" ? null : [{ kind: "note", body: { text } }])}
      onRecorded={done}
    >
      <TextField label={words.noteText} value={fields.text} onChange={(next) => put({ text: next })} lines />
    </BikeForm>
  );
}
