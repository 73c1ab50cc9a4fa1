/** Torques: every joint of this bike with its range, what it got, and what is still to be tightened. */

import type { TorqueCard } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import type { BikeNow } from "../loading";
import { spaced } from "../names";
import { dateOf } from "../when";
import { useAsked, useTried } from "./asked";
import { useRefusals } from "./refusals";
import { SheetPage } from "./sheet-page";
import { StepSign } from "./signs";
import { torqueVerdict } from "./torque-verdict";
import { w } from "./words";
import "../../controls/drawer.css";
import "./build.css";
import "./torque.css";

export function Torques() {
  return <SheetPage title={w.torque.title}>{(bike) => <List bike={bike} />}</SheetPage>;
}

function List({ bike }: { bike: BikeNow }) {
  const id = useBikeId();
  const { state } = bike;
  const cards = useAsked(() => kernel.torques(state), state);
  if (cards === undefined) return <p class="quiet">{words.reading}</p>;
  const on = cards.filter((card) => card.on_bike || card.done !== null);
  const open = on.filter((card) => card.done === null && !card.by_feel);
  const off = cards.filter((card) => !on.includes(card));
  const again = bike.due.filter((one) => one.due.includes("torque"));
  return (
    <>
      {again.map((one) => (
        <p key={one.due} class="torque-due">
          <strong>{said(one.title)}</strong> {said(one.text)}
        </p>
      ))}
      <p>
        <span class="figure build-done">
          {on.length - open.length - on.filter((card) => card.by_feel && card.done === null).length}
        </span>{" "}
        {w.torque.tightened(open.length)}
      </p>
      <Group title={w.torque.open} cards={open} id={id} state={state} />
      <Group title={w.torque.done} cards={on.filter((card) => card.done !== null)} id={id} state={state} />
      <Group title={w.torque.byFeel} cards={on.filter((card) => card.done === null && card.by_feel)} id={id} state={state} />
      {off.length > 0 && (
        <details class="drawer">
          <summary>{w.torque.notOn(off.length)}</summary>
          <Group title={w.torque.others} cards={off} id={id} state={state} />
        </details>
      )}
      <p class="quiet">{w.torque.again}</p>
    </>
  );
}

function Group({ title, cards, id, state }: { title: string; cards: TorqueCard[]; id: string; state: BikeState }) {
  if (cards.length === 0) return null;
  return (
    <section class="part">
      <h2>{title}</h2>
      <ul class="ruled">
        {cards.map((card) => (
          <li key={card.joint}>
            <a class="plan-line" href={`/bike/${id}/torque/${encodeURIComponent(card.joint)}`}>
              <StepSign status={card.done === null ? "ready" : "done"} />
              <span class="step-text">
                <strong class="step-title">{spaced(card.joint)}</strong>
                <span class="quiet">
                  <Range card={card} />
                  {card.done === null ? "" : ` · ${dateOf(card.done.at)}`}
                </span>
                {card.done === null ? null : <Verdict card={card} />}
              </span>
              {card.done === null ? null : <span class="figure torque-applied">{show(card.done.applied, "N·m", 1)}</span>}
            </a>
          </li>
        ))}
      </ul>
      {state.parts.length === 0 ? <p>{w.parts.none}</p> : null}
    </section>
  );
}

/** The verdict that stands with a torque, unless it is within. */
function Verdict({ card }: { card: TorqueCard }) {
  const done = card.done;
  const low = done?.low ?? card.low;
  const high = done?.high ?? card.high;
  const { answer, refused } = useTried(
    async () =>
      done === null || low === null || high === null || done.accuracy === undefined
        ? null
        : torqueVerdict(
            await kernel.run("torque-check", {
              applied: done.applied,
              spec_low: low,
              spec_high: high,
              accuracy: done.accuracy,
            }),
          ),
    done?.entry,
  );
  const [refusal] = useRefusals({ calculation: "torque-check", refused });
  if (refusal !== undefined) return <span class="torque-word-stop">{refusal}</span>;
  if (answer === undefined || answer === null || answer.level === "fine") return null;
  return <span class={`torque-word-${answer.level}`}>{w.torque.verdicts[answer.word] ?? answer.text}</span>;
}

/** "4 to 5 N·m, marked" or "4 to 6 N·m, usual". */
export function Range({ card }: { card: TorqueCard }) {
  if (card.low === null || card.high === null) return <>{said(card.condition)}</>;
  const figures =
    card.low === card.high ? show(card.high, "N·m", 1) : `${formatNumber(card.low, 1)}–${show(card.high, "N·m", 1)}`;
  return (
    <>
      <span class="figure">{figures}</span>, {card.usual ? <em>{w.torque.usual}</em> : w.torque.marked}
    </>
  );
}
