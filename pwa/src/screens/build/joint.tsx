/** One joint: its range and where that comes from, the order of its bolts, the tool, what was applied, and the verdict. */

import { useState } from "preact/hooks";
import { useLocation, useRoute } from "preact-iso";
import { Caution } from "../../controls/caution";
import { Choice, Flag } from "../../controls/choice";
import { Finding } from "../../controls/finding";
import { NumberField } from "../../controls/number-field";
import { TORQUE } from "../../controls/ranges";
import { TextField } from "../../controls/text-field";
import type { TorqueCard } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState, ShopState } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { spaced } from "../names";
import { nameOf, whenOf } from "../when";
import { useWriting } from "../writing";
import { useAsked, useTried } from "./asked";
import { BoltDrawing } from "./bolt-drawing";
import { markingLabel } from "./markings-field";
import { Refusals } from "./refusals";
import { SheetPage } from "./sheet-page";
import { ToolField, toolLeast, toolName, useTool } from "./tools";
import { torqueVerdict } from "./torque-verdict";
import { w } from "./words";
import "./torque.css";
import { Problem } from "../../controls/problem";

export function Joint() {
  const id = useBikeId();
  const joint = decodeURIComponent(useRoute().params.joint ?? "");
  return (
    <SheetPage title={spaced(joint)} under={{ href: `/bike/${id}/torque`, text: w.torque.title }}>
      {({ state }, shop) => <Card state={state} shop={shop} joint={joint} />}
    </SheetPage>
  );
}

function Card({ state, shop, joint }: { state: BikeState; shop: ShopState; joint: string }) {
  const cards = useAsked(() => kernel.torques(state), state);
  if (cards === undefined) return <p class="quiet">{words.reading}</p>;
  const card = cards.find((one) => one.joint === joint);
  if (card === undefined) return <p>{w.torque.noSuch}</p>;
  return <Tighten key={joint} state={state} shop={shop} card={card} />;
}

function Tighten({ state, shop, card }: { state: BikeState; shop: ShopState; card: TorqueCard }) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const tool = useTool(shop);
  const [applied, setApplied] = useState<number | null>(null);
  const [condition, setCondition] = useState<string | null>(null);
  const [painted, setPainted] = useState<boolean | null>(null);
  const [note, setNote] = useState("");
  const { low, high } = card;
  const { answer: verdict, refused } = useTried(
    async () =>
      applied === null || low === null || high === null || tool === null
        ? null
        : torqueVerdict(await kernel.run("torque-check", { applied, spec_low: low, spec_high: high, accuracy: tool.accuracy })),
    applied,
    low,
    high,
    tool,
  );
  const outOfTool = tool !== null && applied !== null && (applied < toolLeast(tool) || applied > tool.most);
  // Said as soon as the tool is chosen: nobody should tighten first and hear it then.
  const outOfReach = tool !== null && low !== null && high !== null && (high < toolLeast(tool) || low > tool.most);
  const toolSaid = tool === null ? "" : w.torque.toolRange(formatNumber(toolLeast(tool), 1), formatNumber(tool.most, 1));
  const record = async () => {
    if (card.by_feel) {
      const draft = { subject: state.subject, kind: "service", body: { job: card.joint, note: note.trim() || undefined } };
      if ((await write([draft], w.torque.said(spaced(card.joint)))) !== null) route(`/${state.subject}/torque`, true);
      return;
    }
    if (applied === null || tool === null) return;
    const body = {
      joint: card.joint,
      applied,
      low: low ?? undefined,
      high: high ?? undefined,
      accuracy: tool.accuracy,
      condition: condition ?? undefined,
      tool: toolName(tool),
      usual: card.usual,
      painted: painted ?? undefined,
      note: note.trim() || undefined,
    };
    const text = `${spaced(card.joint)}: ${show(applied, "N·m", 1)}`;
    if ((await write([{ subject: state.subject, kind: "torque", body }], text)) !== null)
      route(`/${state.subject}/torque`, true);
  };
  return (
    <>
      <section class="torque-range">
        {low === null || high === null ? (
          <p class="torque-range-figure">{said(card.condition)}</p>
        ) : (
          <p class="figure torque-range-figure">
            {low === high ? formatNumber(high, 1) : `${formatNumber(low, 1)}–${formatNumber(high, 1)}`}
            <small> N·m</small>
          </p>
        )}
        {card.by_feel ? null : card.usual ? (
          <p>
            <strong class="torque-usual">{w.torque.usual}</strong> {w.torque.usualHelp}
          </p>
        ) : (
          <ul>
            {card.marks.map((mark) => (
              <li key={`${mark.part}${mark.name}`}>
                {w.torque.markedOn(mark.part ?? "", markingLabel(mark.name))}{" "}
                <span class="figure">{show(mark.value, "N·m", 1)}</span>
              </li>
            ))}
            {card.low_usual ? <li class="quiet">{w.torque.lowUsual}</li> : null}
          </ul>
        )}
        {low !== null && low === high ? <p class="quiet">{w.torque.target}</p> : null}
        {card.clash ? <Finding level="stop" text={w.torque.clash} /> : null}
      </section>
      {card.sequence.length > 0 ? <BoltDrawing card={card} /> : null}
      {card.caution === "" ? null : <Caution lines={[card.caution]} />}
      {card.done === null ? null : (
        <p>
          {words.lastValue} <span class="figure">{show(card.done.applied, "N·m", 1)}</span>, {whenOf(card.done.at)},{" "}
          {nameOf(card.done.by)}
          {card.done.painted ? `, ${w.torque.paintedShort}` : ""}
        </p>
      )}
      <div class="form">
        {card.by_feel ? null : (
          <>
            <ToolField shop={shop} />
            {outOfReach && applied === null ? <Finding level="stop" text={toolSaid} /> : null}
            <Choice
              label={w.torque.condition}
              options={conditions(card).map((one) => ({ value: one, label: said(one) }))}
              value={condition}
              onChange={setCondition}
            />
            {condition === null ? (
              <p class="quiet">{w.torque.conditionFirst(said(card.condition))}</p>
            ) : condition === card.condition ? null : (
              <Finding level="care" text={w.torque.otherCondition(said(card.condition))} />
            )}
            <NumberField
              label={w.torque.applied}
              unit="N·m"
              value={applied}
              onChange={setApplied}
              step={0.5}
              digits={1}
              possible={TORQUE}
              start={low === null || high === null ? undefined : Math.round(low + high) / 2}
              big
            >
              {outOfTool ? <Finding level="stop" text={toolSaid} /> : null}
              {/* Out of its range the tool's error is not known, so nothing can be called inside the limits. */}
              {verdict === null || verdict === undefined || (outOfTool && verdict.level !== "stop") ? null : (
                <Finding level={verdict.level} text={verdict.text} />
              )}
              <Refusals calculation="torque-check" refused={refused} />
            </NumberField>
            <Flag label={w.torque.painted} value={painted} onChange={setPainted} optional />
          </>
        )}
        <TextField label={words.note} value={note} onChange={setNote} optional />
        <Problem text={problem} />
        {tool === null && !card.by_feel ? <p class="quiet">{w.torque.toolFirst}</p> : null}
        <button
          type="button"
          class="button main wide"
          disabled={
            busy || (!card.by_feel && (applied === null || tool === null || condition === null || outOfTool || card.clash))
          }
          onClick={() => void record()}
        >
          {card.by_feel ? w.torque.byFeelDone : words.record}
        </button>
      </div>
      <p class="quiet">{w.torque.again}</p>
    </>
  );
}

const CONDITIONS = ["dry", "grease", "light grease", "threadlock", "carbon paste"];

function conditions(card: TorqueCard): string[] {
  return [card.condition, ...CONDITIONS.filter((one) => one !== card.condition)].slice(0, 6);
}
