/** What a check comes to: the verdict with its reasons, then it is written to the record. */

import { useEffect, useRef, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Mark } from "../../controls/mark";
import { Problem } from "../../controls/problem";
import { Reasons } from "../../controls/reasons";
import { kernel } from "../../kernel/client";
import type { CheckDefinition, CheckItem, Standing, Verdict } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { sendPhotos } from "../../store/photos";
import { record } from "../../store/record";
import type { Draft } from "../../store/types";
import { words } from "../../words";
import { freeFoot } from "../shell/free-foot";
import { along, useWriting } from "../writing";
import { answersOf, type HalfDone, markOf } from "./half-done";
import type { Target } from "./target";

interface Props {
  target: Target;
  definition: CheckDefinition;
  half: HalfDone;
  onGo: (to: number) => void;
  onOver: () => void;
}

export function Outcome({ target, definition, half, onGo, onOver }: Props) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const heading = useRef<HTMLHeadingElement>(null);
  const [found, setFound] = useState<Verdict | null>(null);
  const { check, version, title, scope, items } = definition;
  const plain = definition.who === "rider";
  const answers = answersOf(items, half.answers);
  const told = JSON.stringify(answers);
  useEffect(() => {
    void kernel.verdict(check, version, JSON.parse(told), scope).then(setFound);
  }, [check, version, scope, told]);
  useEffect(() => heading.current?.focus(), []);
  const firstOpen = items.findIndex((item) => markOf(item, half.answers[item.item]) === null);
  const open = items.filter((item) => markOf(item, half.answers[item.item]) === null).length;
  const unsure = items.some((item) => item.essential && markOf(item, half.answers[item.item]) === "attention");
  const keepIt = async () => {
    const { subject, event, plate } = target;
    const times = { started_at: half.startedAt, finished_at: new Date().toISOString() };
    const body = { check, version, title, scope, answers, ...times, event, plate: target.state === null ? plate : undefined };
    const made = await write([{ subject, kind: "check", body }], words.check.recorded(said(title)));
    const entry = made?.[0];
    if (entry === undefined) return;
    onOver();
    // The check is safe by now and says by itself what it came to; faults and photos name it, so they come after.
    const after = await record.write([
      ...(target.state === null ? [] : faultsOf(target.subject, items, half, entry.id)),
      ...shotsOf(subject, items, half, entry.id),
    ]);
    along(made ?? [], after);
    void sendPhotos();
    route(target.after, true);
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
            {plain ? (
              <Plainly found={found} unsure={unsure} standing={target.state?.standing} />
            ) : (
              <Mark verdict={found.verdict} scope={found.scope} large />
            )}
            {found.scope === "part" && !plain ? <p class="quiet">{words.check.partOnly}</p> : null}
            <Reasons reasons={found.reasons} />
            <p class="quiet">{said(found.caution)}</p>
          </>
        )}
        <Problem text={problem} />
      </main>
      <footer class="check-foot" ref={freeFoot}>
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

/**
 * What a rider is told. Somebody who is not sure of what the ride hangs on is not told to ride gently; and who found nothing on a
 * bike that must not be ridden is told that first: a rider's check clears nothing.
 */
function Plainly({ found, unsure, standing }: { found: Verdict; unsure: boolean; standing: Standing | undefined }) {
  const { verdict, scope } = found;
  if (standing?.verdict === "not-fit" && verdict !== "not-fit") {
    const [reason] = standing.reasons;
    return (
      <>
        <Mark verdict="not-fit" large />
        <p class="check-plainly">{words.check.standsNotFit(reason === undefined ? "" : said(reason.text))}</p>
        <h2>{words.check.thisCheck}</h2>
        <Mark verdict={verdict} scope={scope} says={unsure && verdict === "care" ? words.plainMarks.attention : undefined} />
      </>
    );
  }
  if (unsure && verdict !== "not-fit") {
    return (
      <>
        <Mark verdict="not-complete" says={verdict === "care" ? words.plainMarks.attention : undefined} large />
        <p class="check-plainly">{words.check.plainly.unsure}</p>
      </>
    );
  }
  return (
    <>
      <Mark verdict={verdict} scope={scope} large />
      <p class="check-plainly">{words.check.plainly[verdict]}</p>
    </>
  );
}

/** What failed, or needs somebody to see to it, stands open on the bike until it is mended. */
function faultsOf(subject: string, items: CheckItem[], half: HalfDone, check: string): Draft[] {
  return items
    .filter((item) => markOf(item, half.answers[item.item]) === "fail")
    .map((item) => {
      const note = half.answers[item.item]?.note?.trim();
      const what = (note ? `${item.title}: ${note}` : item.title).slice(0, 200);
      return {
        subject,
        kind: "fault",
        body: { what, level: item.essential ? "stop" : "care", area: item.area, item: item.item, check },
      };
    });
}

function shotsOf(subject: string, items: CheckItem[], half: HalfDone, about: string): Draft[] {
  return items.flatMap((item) => {
    const answer = half.answers[item.item];
    const caption = [item.title, answer?.note?.trim()].filter(Boolean).join(": ");
    return (answer?.photos ?? []).map((photo) => ({ subject, kind: "photo", body: { ...photo, about, caption } }));
  });
}
