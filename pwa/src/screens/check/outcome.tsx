/** What a check comes to: the verdict with its reasons, then it is written to the record. */

import { useEffect, useRef, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { LevelSign } from "../../controls/finding";
import { Mark } from "../../controls/mark";
import { kernel } from "../../kernel/client";
import type { CheckDefinition, Verdict } from "../../kernel/types";
import { record } from "../../store/record";
import { words } from "../../words";
import type { BikeNow } from "../loading";
import { told, useWriting } from "../writing";
import { answersOf, type HalfDone, markOf } from "./half-done";

interface Props {
  bike: BikeNow;
  definition: CheckDefinition;
  half: HalfDone;
  onGo: (to: number) => void;
  onOver: () => void;
}

export function Outcome({ bike, definition, half, onGo, onOver }: Props) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const heading = useRef<HTMLHeadingElement>(null);
  const [found, setFound] = useState<Verdict | null>(null);
  const { check, version, title, scope, items } = definition;
  const answers = answersOf(items, half.answers);
  const asked = JSON.stringify(answers);
  useEffect(() => {
    void kernel.verdict(check, version, JSON.parse(asked), scope).then(setFound);
  }, [check, version, scope, asked]);
  useEffect(() => heading.current?.focus(), []);
  const firstOpen = items.findIndex((item) => markOf(item, half.answers[item.item]) === null);
  const open = items.filter((item) => markOf(item, half.answers[item.item]) === null).length;
  const keepIt = async () => {
    const { subject } = bike.state;
    const body = { check, version, title, scope, answers, started_at: half.startedAt, finished_at: new Date().toISOString() };
    const made = await write([{ subject, kind: "check", body }], words.check.recorded(title));
    const entry = made?.[0];
    if (entry === undefined) return;
    onOver();
    const faults = items
      .filter((item) => markOf(item, half.answers[item.item]) === "fail")
      .map((item) => {
        const note = half.answers[item.item]?.note?.trim();
        const what = note ? `${item.title}: ${note}` : item.title;
        return {
          subject,
          kind: "fault",
          body: { what, level: item.essential ? "stop" : "care", area: item.area, item: item.item, check: entry.id },
        };
      });
    // The check is safe by now and says not fit by itself; the faults name it, so they come after.
    const raised = await record.write(faults);
    told.value = { text: words.check.recorded(title), entries: [entry, ...raised] };
    route(`/${subject}`, true);
  };
  return (
    <>
      <main class="check-outcome" id="work">
        <h1 ref={heading} tabIndex={-1}>
          {words.check.comesTo}
        </h1>
        {found === null ? (
          <p>{words.reading}</p>
        ) : (
          <>
            <Mark verdict={found.verdict} large />
            {found.scope === "part" ? <p class="quiet">{words.check.partOnly}</p> : null}
            <ul class="reasons">
              {found.reasons.map((reason) => (
                <li key={`${reason.item}${reason.text}`}>
                  <LevelSign level={reason.level} />
                  {reason.text}
                </li>
              ))}
            </ul>
            <p class="quiet">{found.caution}</p>
          </>
        )}
        {problem === null ? null : (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
      </main>
      <footer class="check-foot">
        <div class="buttons">
          <button type="button" class="button" onClick={() => onGo(firstOpen === -1 ? items.length - 1 : firstOpen)}>
            {open > 0 ? words.check.stillOpen(open) : words.check.back}
          </button>
          <button type="button" class="button main" disabled={busy || found === null} onClick={() => void keepIt()}>
            {words.check.record}
          </button>
        </div>
      </footer>
    </>
  );
}
