/** A check under way: item by item, the whole list, and at the end what it comes to. */

import { useEffect, useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { keepAwake } from "../../device";
import { kernel } from "../../kernel/client";
import type { BikeState, CheckDefinition } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { keep } from "../../store/drafts";
import { hush } from "../../voice";
import { words } from "../../words";
import { useChecks } from "../loading";
import { Page } from "../shell/page";
import { answers } from "../who";
import "./check-run.css";
import { type Answered, type HalfDone, keyOf } from "./half-done";
import { Item } from "./item";
import { Outcome } from "./outcome";
import { type Target, useTarget } from "./target";
import { WholeList } from "./whole-list";

/** A plate has no markings, no last values and no joints: it is checked by what the check itself says. */
const NOTHING_KNOWN = { parts: [], measures: {}, joints: {} } as unknown as BikeState;

export function CheckRun() {
  const { check = "" } = useRoute().params;
  const target = useTarget();
  const checks = useChecks();
  const definition = checks?.find((one) => one.check === check && answers(one));
  const [ready, setReady] = useState<CheckDefinition | null>(null);
  const [half, setHalf] = useState<HalfDone | null>(null);
  const key = target ? keyOf(target.subject, check, target.state === null ? target.plate : undefined) : "";
  useEffect(keepAwake, []);
  useEffect(() => hush, []);
  // Made ready once, and kept with the answers: neither limits nor items may move under the hands of who is checking.
  useEffect(() => {
    if (!target || checks === undefined || ready !== null) return;
    let over = false;
    const begin = async () => {
      const kept = await keep.get<HalfDone>(key);
      if (over) return;
      if (kept?.asked !== undefined) {
        setReady(kept.asked);
        setHalf(kept);
        return;
      }
      if (definition === undefined) return;
      const asked = await kernel.prepare(definition, target.state ?? NOTHING_KNOWN);
      if (over) return;
      setReady(asked);
      const goesOn = kept !== undefined && kept.version === asked.version;
      setHalf(
        goesOn
          ? { ...kept, asked }
          : { startedAt: new Date().toISOString(), version: asked.version, at: 0, answers: {}, asked },
      );
    };
    void begin();
    return () => {
      over = true;
    };
  }, [target, checks, definition, ready, key]);
  if (!target || ready === null || half === null) {
    const missing = target === null || (checks !== undefined && definition === undefined);
    return (
      <Page
        place="bikes"
        title={missing ? words.failed.noSuchSheet : words.reading}
        from={[{ href: "/", text: words.places.bikes }]}
      >
        {null}
      </Page>
    );
  }
  const update = (next: HalfDone) => {
    setHalf(next);
    void keep.set(key, next);
  };
  return <Running target={target} definition={ready} half={half} onChange={update} onOver={() => void keep.drop(key)} />;
}

interface RunningProps {
  target: Target;
  definition: CheckDefinition;
  half: HalfDone;
  onChange: (next: HalfDone) => void;
  onOver: () => void;
}

function Running({ target, definition, half, onChange, onOver }: RunningProps) {
  const { items } = definition;
  const [listed, setListed] = useState(false);
  const at = Math.min(half.at, items.length);
  const item = items[at];
  const plain = definition.who === "rider";
  const go = (to: number) => {
    setListed(false);
    onChange({ ...half, at: Math.max(0, Math.min(items.length, to)) });
  };
  const answer = (name: string, answered: Answered, then?: number) =>
    onChange({ ...half, at: then ?? half.at, answers: { ...half.answers, [name]: answered } });
  return (
    <div class={plain ? "check check-plain" : "check"}>
      <header class="check-head">
        <a href={target.back}>{target.name}</a>
        <strong>{said(definition.title)}</strong>
        <button type="button" class="plain" aria-expanded={listed} onClick={() => setListed(!listed)}>
          {listed ? words.check.oneByOne : words.check.wholeList}
        </button>
      </header>
      {listed ? (
        <WholeList items={items} half={half} onGo={go} onAnswer={answer} />
      ) : item === undefined ? (
        <Outcome target={target} definition={definition} half={half} onGo={go} onOver={onOver} />
      ) : (
        <Item
          key={item.item}
          item={item}
          items={items}
          half={half}
          at={at}
          plain={plain}
          onAnswer={(answered, next) => answer(item.item, answered, next ? at + 1 : at)}
          onGo={go}
        />
      )}
    </div>
  );
}
