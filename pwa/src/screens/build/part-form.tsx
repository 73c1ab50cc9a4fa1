/** One part: put on, looked at, mended on paper, swapped for another or taken off. The old one stays in the history. */

import { useState } from "preact/hooks";
import { useLocation, useRoute } from "preact-iso";
import { closed } from "../../controls/back";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { COUNT, PART_MASS, PRICE } from "../../controls/ranges";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { kernel } from "../../kernel/client";
import type { PartState, ShopState } from "../../kernel/types";
import { MOST_WORDS } from "../../store/limits";
import type { Draft } from "../../store/types";
import { show } from "../../units";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { PartRun } from "../bike/part-run";
import { useHalfWritten } from "../half-written";
import type { BikeNow } from "../loading";
import { spaced } from "../names";
import { dateOf, nameOf } from "../when";
import { useWriting } from "../writing";
import { useAsked } from "./asked";
import { type Carried, InterfacesField } from "./interfaces-field";
import { MarkingsField } from "./markings-field";
import { SheetPage } from "./sheet-page";
import { SLOTS, slotNamed } from "./slots";
import { w } from "./words";
import "./parts.css";
import { Problem } from "../../controls/problem";

type Mode = "new" | "change" | "swap";

export function PartForm() {
  const id = useBikeId();
  const { params, query } = useRoute();
  const which = params.part ?? "new";
  const [mode, setMode] = useState<Mode>(which === "new" ? "new" : "change");
  const under = { href: `/bike/${id}/parts`, text: w.parts.title };
  return (
    <SheetPage title={({ state }) => state.parts.find((one) => one.part === which)?.name ?? w.parts.addTitle} under={under}>
      {(bike, shop) => {
        const part = bike.state.parts.find((one) => one.part === which);
        if (which !== "new" && part === undefined) return <p>{w.parts.notOn}</p>;
        return (
          <Form
            key={`${which} ${mode} ${part?.entry ?? ""}`}
            bike={bike}
            shop={shop}
            part={part}
            mode={mode}
            onMode={setMode}
            slot={part?.slot ?? query.slot ?? null}
          />
        );
      }}
    </SheetPage>
  );
}

interface FormProps {
  bike: BikeNow;
  shop: ShopState;
  part: PartState | undefined;
  mode: Mode;
  onMode: (mode: Mode) => void;
  slot: string | null;
}

function Form({ bike, shop, part, mode, onMode, slot: first }: FormProps) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const shipped = useAsked(() => kernel.interfaces());
  const kept = mode === "change" ? part : undefined;
  const known = first === null || (SLOTS as readonly string[]).includes(first);
  const key = `part ${bike.state.subject} ${part?.entry ?? "new"} ${mode} ${first ?? ""}`;
  const { fields, put, done } = useHalfWritten(key, {
    slot: known ? first : OTHER,
    otherSlot: known ? "" : (first ?? ""),
    name: kept?.name ?? "",
    count: kept?.count ?? null,
    claimed: kept?.claimed ?? null,
    price: kept?.price ?? null,
    mass: null as number | null,
    markings: kept?.markings ?? {},
    interfaces: (kept?.interfaces ?? []) as Carried[],
    reason: "",
  });
  const { slot, otherSlot, name, count, claimed, price, mass, markings, interfaces, reason } = fields;
  const [removing, setRemoving] = useState(false);
  const { subject } = bike.state;
  const theSlot = slot === OTHER ? slotNamed(otherSlot) : slot;
  const whole = theSlot !== null && theSlot !== "" && name.trim() !== "";

  const record = async () => {
    if (!whole) return;
    const id = kept?.part ?? crypto.randomUUID();
    const drafts: Draft[] = [];
    if (mode === "swap" && part !== undefined) {
      drafts.push({
        subject,
        kind: "part-remove",
        body: { part: part.part, reason: reason.trim() || w.parts.swappedFor(name.trim()) },
      });
    }
    const body = {
      part: id,
      slot: theSlot,
      name: name.trim(),
      count: count ?? undefined,
      claimed: claimed ?? undefined,
      price: price ?? undefined,
      markings: Object.keys(markings).length > 0 ? markings : undefined,
      interfaces: interfaces.length > 0 ? interfaces : undefined,
    };
    drafts.push({ subject, kind: "part-fit", body });
    if (mass !== null) drafts.push({ subject, kind: "weigh", body: { part: id, mass } });
    if ((await write(drafts, w.parts.isOn(name.trim()))) === null) return;
    done();
    route(`/${subject}/parts`, true);
  };
  const remove = async () => {
    if (part === undefined) return;
    const drafts = [{ subject, kind: "part-remove", body: { part: part.part, reason: reason.trim() || undefined } }];
    if ((await write(drafts, w.parts.isOff(part.name))) === null) return;
    done();
    await closed(() => setRemoving(false));
    route(`/${subject}/parts`, true);
  };

  const why = (
    <TextField label={words.reason} value={reason} onChange={(next) => put({ reason: next })} most={MOST_WORDS} optional />
  );
  return (
    <>
      {part === undefined ? null : (
        <section class="part-facts">
          <p>
            <span class="figure part-facts-mass">
              {part.weighed === null ? w.weigh.notWeighed : show(part.weighed, "g", 1)}
            </span>{" "}
            <span class="quiet">
              {spaced(part.slot)} · {words.km(part.ran_km)} · {dateOf(part.at)}, {nameOf(part.by)}
            </span>
          </p>
          <PartRun part={part.part} subject={subject} />
          <div class="buttons">
            <a class="button small" href={`/${subject}/weigh?part=${part.part}`}>
              {w.weigh.weighIt}
            </a>
            <button
              type="button"
              class="button small"
              aria-pressed={mode === "swap"}
              onClick={() => onMode(mode === "swap" ? "change" : "swap")}
            >
              {w.parts.swap}
            </button>
            <button type="button" class="button small" onClick={() => setRemoving(true)}>
              {w.parts.takeOff}
            </button>
          </div>
          {mode === "swap" ? <p>{w.parts.swapHelp(part.name)}</p> : null}
        </section>
      )}
      <div class="form">
        {mode === "new" ? (
          <Choice
            label={w.parts.slot}
            options={[
              ...SLOTS.map((one) => ({ value: one as string, label: spaced(one) })),
              { value: OTHER, label: w.parts.otherSlot },
            ]}
            value={slot}
            onChange={(next) => put({ slot: next })}
          />
        ) : null}
        {slot === OTHER ? (
          <TextField label={w.parts.slotName} value={otherSlot} onChange={(next) => put({ otherSlot: next })} />
        ) : null}
        <TextField label={w.parts.name} value={name} onChange={(next) => put({ name: next })} help={w.parts.nameHelp} />
        <NumberField
          label={w.parts.claimed}
          unit="g"
          value={claimed}
          onChange={(next) => put({ claimed: next })}
          step={1}
          digits={1}
          possible={PART_MASS}
          start={300}
          optional
        />
        {mode === "change" ? null : (
          <NumberField
            label={w.parts.weighedNow}
            unit="g"
            value={mass}
            onChange={(next) => put({ mass: next })}
            step={1}
            digits={1}
            possible={PART_MASS}
            start={claimed ?? 300}
            optional
          />
        )}
        <NumberField
          label={w.parts.price}
          unit=""
          value={price}
          onChange={(next) => put({ price: next })}
          step={5}
          digits={2}
          possible={PRICE}
          start={50}
          optional
        />
        <NumberField
          label={w.parts.countLabel}
          unit=""
          value={count}
          onChange={(next) => put({ count: next })}
          step={1}
          whole
          possible={COUNT}
          start={1}
          optional
        />
        <InterfacesField
          slot={theSlot ?? ""}
          kinds={shipped ?? []}
          own={shop.interfaces}
          value={interfaces}
          onChange={(next) => put({ interfaces: next })}
        />
        <MarkingsField slot={theSlot ?? ""} value={markings} onChange={(next) => put({ markings: next })} />
        {mode === "swap" ? why : null}
        <Problem text={problem} />
        <button type="button" class="button main wide" disabled={busy || !whole} onClick={() => void record()}>
          {mode === "swap" ? w.parts.recordSwap : mode === "change" ? w.parts.recordChange : words.record}
        </button>
      </div>
      {removing && part !== undefined ? (
        <Sheet title={w.parts.takeOffTitle(part.name)} onClose={() => setRemoving(false)}>
          <p>{w.parts.takeOffHelp}</p>
          {why}
          <button type="button" class="button main wide" disabled={busy} onClick={() => void remove()}>
            {w.parts.takeOff}
          </button>
        </Sheet>
      ) : null}
    </>
  );
}

const OTHER = "another slot";
