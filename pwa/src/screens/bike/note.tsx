/** A note, in words. */

import { useState } from "preact/hooks";
import { TextField } from "../../controls/text-field";
import { words } from "../../words";
import { BikeForm } from "./frame";

export function Note() {
  const [text, setText] = useState("");
  return (
    <BikeForm
      title={words.ways.note}
      said={words.noted}
      drafts={() => (text.trim() === "" ? null : [{ kind: "note", body: { text: text.trim() } }])}
    >
      <TextField label={words.noteText} value={text} onChange={setText} lines />
    </BikeForm>
  );
}
