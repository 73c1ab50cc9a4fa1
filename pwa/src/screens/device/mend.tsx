/** Writing a refused entry anew: its fields as they were given, the refused ones first with what was wanted. */

import { useState } from "preact/hooks";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { said } from "../../languages/spoken";
import { record } from "../../store/record";
import type { Refused } from "../../store/types";
import { words } from "../../words";
import { fieldsOf, type MendField, typed } from "./mending";

export function Mend({ refused, onClose }: { refused: Refused; onClose: () => void }) {
  const fields = fieldsOf(refused);
  const [texts, setTexts] = useState<Record<string, string>>({});
  const [told, setTold] = useState<string | null>(null);
  const textOf = (field: MendField) => texts[field.name] ?? field.text;

  async function write(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const body: Record<string, unknown> = {};
    for (const field of fields) {
      const read = typed(field, textOf(field));
      if ("problem" in read) return;
      if (read.value !== undefined) body[field.name] = read.value;
    }
    try {
      await record.mend(refused.entry, body);
      onClose();
    } catch (problem) {
      setTold(problem instanceof Error ? problem.message : String(problem));
    }
  }

  return (
    <form class="mend" onSubmit={(event) => void write(event)}>
      {fields.map((field) => {
        const read = typed(field, textOf(field));
        return (
          <TextField
            key={field.name}
            label={field.name.replaceAll("_", " ")}
            value={textOf(field)}
            lines={field.as === "json"}
            most={64 * 1024}
            problem={"problem" in read ? words.device.mendProblem[read.problem] : undefined}
            help={field.faults.map((fault) => words.device.refusal(fault.field, fault.given, said(fault.wanted))).join("\n")}
            onChange={(text) => setTexts({ ...texts, [field.name]: text })}
          />
        );
      })}
      <Problem text={told} />
      <div class="buttons">
        <button type="submit" class="button small main">
          {words.device.writeAnew}
        </button>
        <button type="button" class="button small" onClick={onClose}>
          {words.device.keepHere}
        </button>
      </div>
    </form>
  );
}
