/** A check under way: item by item, the whole list, and at the end what it comes to. */

import { useEffect, useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { keepAwake } from "../../device";
import { kernel } from "../../kernel/client";
import type { CheckDefinition } from "../../kernel/types";
import { keep } from "../../store/drafts";
import { words } from "../../words";
import { type BikeNow, useBike, useChecks } from "../loading";
import { Page } from "../shell/page";
import "./check-run.css";
import { type Answered, type HalfDone, keyOf } from "./half-done";
import { Item } from "./item";
import { Outcome } from "./outcome";
import { WholeList } from "./whole-list";

export function CheckRun() {
  const { id = "", check = "" } = useRoute().params;
  const bike = useBike(id);
  const checks = useChecks();
  const definition = checks?.find((one) => one.check === check);
  const [ready, setReady] = useState<CheckDefinition | null>(null);
  const [half, setHalf] = useState<HalfDone | null>(null);
  const key = keyOf(`bike/${id}`, check);
  useEffect(keepAwake, []);
  // Made ready once: limits must not move under the hands of who is checking.
  useEffect(() => {
    if (!bike || definition === undefined || ready !== null) return;
    void Promise.all([kernel.prepare(definition, bike.state), keep.get<HalfDone>(key)]).then(([prepared, kept]) => {
      setReady(prepared);
      const goesOn = kept !== undefined && kept.version === prepared.version;
      setHalf(goesOn ? kept : { startedAt: new Date().toISOString(), version: prepared.version, at: 0, answers: {} });
    });
  }, [bike, definition, ready, key]);
  if (!bike || ready === null || half === null) {
    const missing = bike === null || (checks !== undefined && definition === undefined);
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
  return <Running bike={bike} definition={ready} half={half} onChange={update} onOver={() => void keep.drop(key)} />;
}

interface RunningProps {
  bike: BikeNow;
  definition: CheckDefinition;
  half: HalfDone;
  onChange: (next: HalfDone) => void;
  onOver: () => void;
}

function Running({ bike, definition, half, onChange, onOver }: RunningProps) {
  const { items } = definition;
  const [listed, setListed] = useState(false);
  const at = Math.min(half.at, items.length);
  const item = items[at];
  const back = { href: `/${bike.state.subject}/checks`, text: bike.state.described.name ?? words.bikes.unnamed };
  const go = (to: number) => {
    setListed(false);
    onChange({ ...half, at: Math.max(0, Math.min(items.length, to)) });
  };
  const answer = (name: string, answered: Answered, then?: number) =>
    onChange({ ...half, at: then ?? half.at, answers: { ...half.answers, [name]: answered } });
  return (
    <div class="check">
      <header class="check-head">
        <a href={back.href}>{back.text}</a>
        <strong>{definition.title}</strong>
        <button type="button" class="plain" aria-expanded={listed} onClick={() => setListed(!listed)}>
          {listed ? words.check.oneByOne : words.check.wholeList}
        </button>
      </header>
      {listed ? (
        <WholeList items={items} half={half} onGo={go} />
      ) : item === undefined ? (
        <Outcome bike={bike} definition={definition} half={half} onGo={go} onOver={onOver} />
      ) : (
        <Item
          key={item.item}
          item={item}
          items={items}
          half={half}
          at={at}
          onAnswer={(answered, next) => answer(item.item, answered, next ? at + 1 : at)}
          onGo={go}
        />
      )}
    </div>
  );
}
