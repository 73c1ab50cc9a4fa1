/** What two people set without knowing of each other: both values, and deciding between them. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { BikeState, Question } from "../../kernel/types";
import { MOST_WORDS } from "../../store/limits";
import { words } from "../../words";
import { useNames } from "../names";
import { nameOf, whenOf } from "../when";
import { writes } from "../who";
import { useWriting } from "../writing";
import { optionSaid } from "./settles";

export function Questions({ state }: { state: BikeState }) {
  const names = useNames();
  const { write, busy, problem } = useWriting();
  const [open, setOpen] = useState<Question | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [reason, setReason] = useState("");
  if (state.questions.length === 0) return null;
  const label = (question: Question) => names.of(question.question.slice(question.question.indexOf(".") + 1)).label;
  const decide = async () => {
    if (open === null || chosen === null) return;
    const body = { question: open.question, chosen, reason: reason.trim() };
    const made = await write([{ subject: state.subject, kind: "decide", body }], words.questions.decided(label(open)));
    if (made !== null) setOpen(null);
  };
  return (
    <section class="part">
      <h2>{words.questions.title}</h2>
      <ul class="ruled">
        {state.questions.map((question) => (
          <li key={question.question} class="fault">
            <div>
              <strong>{label(question)}</strong>
              {question.options.map((option) => (
                <p key={option.entry}>
                  <span class="figure">{optionSaid(option)}</span>{" "}
                  <span class="quiet">
                    {nameOf(option.by)}, {whenOf(option.at)}
                  </span>
                </p>
              ))}
            </div>
            {writes("decide") ? (
              <button
                type="button"
                class="button small"
                onClick={() => {
                  setChosen(null);
                  setReason("");
                  setOpen(question);
                }}
              >
                {words.questions.decide}
              </button>
            ) : null}
          </li>
        ))}
      </ul>
      {open === null ? null : (
        <Sheet title={label(open)} onClose={() => setOpen(null)}>
          <p>{words.questions.help}</p>
          <Choice
            label={words.questions.which}
            options={open.options.map((option) => ({
              value: option.entry,
              label: `${optionSaid(option)}, ${nameOf(option.by)}`,
            }))}
            value={chosen}
            onChange={setChosen}
          />
          <TextField label={words.reason} value={reason} onChange={setReason} most={MOST_WORDS} />
          <Problem text={problem} />
          <button
            type="button"
            class="button main wide"
            disabled={busy || chosen === null || reason.trim() === ""}
            onClick={() => void decide()}
          >
            {words.questions.decide}
          </button>
        </Sheet>
      )}
    </section>
  );
}
