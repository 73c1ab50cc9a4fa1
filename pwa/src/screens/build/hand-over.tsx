/** The sheet that goes with the bike: position, parts with weights, torques, gears, pressures, cautions, what is next due. */

import { useRef } from "preact/hooks";
import { LevelSign } from "../../controls/finding";
import { BikeDrawing } from "../../drawing/bike";
import type { TorqueCard } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState, Due, JointState, PartState } from "../../kernel/types";
import { locale } from "../../languages/chosen";
import { said } from "../../languages/spoken";
import { identity, record } from "../../store/record";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import type { BikeNow } from "../loading";
import { spaced, useNames } from "../names";
import { dateOf, nameOf } from "../when";
import { useAsked, useTried } from "./asked";
import { entriesJsonLines, fileName, handOut, partsCsv, sheetFile, torquesCsv } from "./exports";
import "./hand-over.css";
import { useRefusals } from "./refusals";
import { SheetPage } from "./sheet-page";
import { slotOrder } from "./slots";
import { Verdict } from "./torque";
import { judged, limitsOf, type TorqueVerdict } from "./torque-verdict";
import { w } from "./words";

export function HandOver() {
  return (
    <SheetPage title={w.handOver.title} everybodys>
      {(bike) => <Sheet bike={bike} />}
    </SheetPage>
  );
}

function Sheet({ bike }: { bike: BikeNow }) {
  const sheet = useRef<HTMLElement>(null);
  const { state } = bike;
  const name = state.described.name ?? words.bikes.unnamed;
  const give = (what: string, ending: string, type: string, text: string) =>
    void handOut(fileName(name, what, ending), type, text);
  const missing = lacking(state);
  return (
    <>
      <div class="not-printed hand-over-acts">
        {missing.length > 0 ? <p>{w.handOver.missing(missing)}</p> : null}
        <button type="button" class="button main wide" onClick={() => print()}>
          {w.handOver.print}
        </button>
        <fieldset class="buttons">
          <legend class="unseen">{w.handOver.files}</legend>
          <button
            type="button"
            class="button small"
            onClick={() => sheet.current !== null && give("hand-over", "html", "text/html", sheetFile(sheet.current, name))}
          >
            {w.handOver.asFile}
          </button>
          <button type="button" class="button small" onClick={() => give("parts", "csv", "text/csv", partsCsv(state))}>
            {w.handOver.partsCsv}
          </button>
          <button type="button" class="button small" onClick={() => give("torques", "csv", "text/csv", torquesCsv(state))}>
            {w.handOver.torquesCsv}
          </button>
          <button
            type="button"
            class="button small"
            onClick={async () =>
              give("entries", "jsonl", "application/jsonl", entriesJsonLines(await record.entries(bike.state.subject)))
            }
          >
            {w.handOver.entries}
          </button>
        </fieldset>
      </div>
      <article class="hand-over" ref={sheet}>
        <header class="hand-over-head">
          <h2>{name}</h2>
          <dl>
            <Cell term={words.bikes.rider} told={state.described.rider ? nameOf(state.described.rider) : "–"} />
            <Cell term={words.bikes.use} told={state.described.use ?? "–"} />
            <Cell term={words.device.workshop} told={identity.value?.workshop || "–"} />
            <Cell
              term={w.handOver.date}
              told={new Date().toLocaleDateString(locale, { day: "numeric", month: "long", year: "numeric" })}
            />
            <Cell term={w.handOver.run} told={show(state.km, "km", 0)} />
            <Cell term={w.handOver.stands} told={words.verdicts[state.standing.verdict]} />
          </dl>
        </header>
        <section class="hand-over-part hand-over-drawing">
          <h3>{words.tabs.position}</h3>
          <BikeDrawing state={state} />
          <Settings state={state} />
        </section>
        <Parts state={state} />
        <Torques state={state} />
        <Cuts state={state} />
        <Gears state={state} />
        <Next due={bike.due} />
        <section class="hand-over-part">
          <h3>{words.caution}</h3>
          <ul class="hand-over-cautions">
            {w.handOver.cautions.map((one) => (
              <li key={one}>{one}</li>
            ))}
            <li>{said(state.standing.caution)}</li>
          </ul>
        </section>
        <div class="hand-over-signed">
          <span>{w.handOver.given}</span>
          <span>{w.handOver.taken}</span>
        </div>
      </article>
    </>
  );
}

function Cell({ term, told, line = false }: { term: string; told: string; line?: boolean }) {
  return (
    <div class={line ? "hand-over-pair" : "hand-over-cell"}>
      <dt>{term}</dt>
      <dd>{told}</dd>
    </div>
  );
}

/** What the sheet would be asked for and does not have. */
function lacking(state: BikeState): string[] {
  return [
    state.weighed.bike === undefined ? w.handOver.lacks.weight : "",
    Object.keys(state.joints).length === 0 ? w.handOver.lacks.torques : "",
    state.settings.pressure_front === undefined || state.settings.pressure_rear === undefined ? w.handOver.lacks.pressures : "",
    state.checks.some((check) => check.check === "hand-over") ? "" : w.handOver.lacks.check,
  ].filter((one) => one !== "");
}

function Settings({ state }: { state: BikeState }) {
  const names = useNames();
  const listed = Object.entries(state.settings);
  if (listed.length === 0) return <p>{w.handOver.noSettings}</p>;
  return (
    <dl class="hand-over-pairs">
      {listed.map(([name, one]) => (
        <div key={name} class="hand-over-pair">
          <dt>{names.of(name).label}</dt>
          <dd class="figure">{show(one.value, one.unit ?? "", 2)}</dd>
        </div>
      ))}
    </dl>
  );
}

function Parts({ state }: { state: BikeState }) {
  const parts = [...state.parts].sort((a, b) => slotOrder(a.slot) - slotOrder(b.slot));
  const weighed = parts.filter((part) => part.weighed !== null);
  const sum = weighed.reduce((total, part) => total + (part.weighed ?? 0), 0);
  const bike = state.weighed.bike;
  return (
    <section class="hand-over-part hand-over-long">
      <h3>{w.parts.title}</h3>
      <table class="figures hand-over-table">
        <tbody>
          {parts.map((part) => (
            <tr key={part.part}>
              <th scope="row">
                <span class="quiet">{spaced(part.slot)} </span>
                {part.name}
                {(part.count ?? 1) > 1 ? ` ×${part.count}` : ""}
              </th>
              <td class="figure">{massTold(part)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">{w.handOver.partsWeighed(weighed.length, parts.length)}</th>
            <td class="figure">{show(sum, "g", 0)}</td>
          </tr>
          <tr>
            <th scope="row">{w.weigh.wholeBike}</th>
            <td class="figure">{bike === undefined ? w.weigh.notWeighed : show(bike.value, "g", 0)}</td>
          </tr>
        </tfoot>
      </table>
    </section>
  );
}

function massTold(part: PartState): string {
  if (part.weighed !== null) return show(part.weighed, "g", 1);
  return part.claimed == null ? w.weigh.notWeighed : `(${show(part.claimed, "g", 0)})`;
}

function Torques({ state }: { state: BikeState }) {
  const joints = Object.values(state.joints);
  const cards = useAsked(() => kernel.torques(state), state);
  const cardOf = (joint: JointState) => cards?.find((card) => card.joint === joint.joint);
  const verdicts = useAsked(async () => {
    const told = await Promise.all(joints.map((joint) => judged(joint, cardOf(joint))));
    return new Map(joints.map((joint, i) => [joint.joint, told[i] ?? null]));
  }, cards);
  return (
    <section class="hand-over-part">
      <h3>{w.torque.title}</h3>
      {joints.length === 0 ? <p>{w.handOver.noTorques}</p> : null}
      {joints.length > 0 && (
        <table class="figures hand-over-table">
          <thead>
            <tr>
              <th>{w.handOver.joint}</th>
              <th>{w.handOver.allowed}</th>
              <th>{w.torque.applied}</th>
            </tr>
          </thead>
          <tbody>
            {joints.map((joint) => (
              <TorqueRow key={joint.joint} joint={joint} card={cardOf(joint)} verdict={verdicts?.get(joint.joint) ?? null} />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function TorqueRow({
  joint,
  card,
  verdict,
}: {
  joint: JointState;
  card: TorqueCard | undefined;
  verdict: TorqueVerdict | null;
}) {
  const { low, high } = limitsOf(joint, card);
  const usual = joint.usual === true && card?.usual !== false;
  return (
    <tr>
      <th scope="row">
        {spaced(joint.joint)}
        {joint.condition ? <span class="quiet"> {said(joint.condition)}</span> : null}
        <Verdict verdict={verdict} />
      </th>
      <td class="figure">
        {high === null ? "–" : `${low === null || low === high ? "" : `${formatNumber(low, 1)}–`}${formatNumber(high, 1)}`}
        {usual ? ` ${w.torque.usual}` : ""}
      </td>
      <td class="figure">
        {verdict?.level === "stop" ? <LevelSign level="stop" /> : null} {show(joint.applied, "N·m", 1)}
      </td>
    </tr>
  );
}

function Cuts({ state }: { state: BikeState }) {
  if (state.cuts.length === 0) return null;
  return (
    <section class="hand-over-part">
      <h3>{w.handOver.cuts}</h3>
      <ul>
        {state.cuts.map((cut, i) => {
          const superseded = state.cuts.slice(i + 1).some((later) => later.what === cut.what);
          return (
            <li key={cut.entry}>
              {w.cut.titled(cut.what)}: <span class="figure">{show(cut.result, cut.unit, 1)}</span>, {nameOf(cut.by)},{" "}
              {dateOf(cut.at)}
              {superseded ? ` · ${w.cut.superseded}` : ""}
              {cut.overruled ? <strong> · {w.cut.overruled(cut.overruled)}</strong> : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** Lowest and highest gear out of what chainrings and cassette say of themselves. */
function Gears({ state }: { state: BikeState }) {
  const carried = (kind: string) => state.parts.flatMap((part) => part.interfaces ?? []).find((one) => one.kind === kind);
  const rings = carried("crank-rings");
  const cogs = carried("cassette");
  const radius = state.measures.wheel_radius?.value;
  const numbers = [rings?.ring_min, rings?.ring_max, cogs?.cog_min, cogs?.cog_max];
  const known = numbers.every((one) => typeof one === "number") && radius !== undefined;
  const { answer: gears, refused } = useTried(async () => {
    if (!known || radius === undefined) return null;
    const [least, most, small, large] = numbers as number[];
    const answer = await kernel.run("gear-table", {
      rings: [...new Set([least, most])],
      cogs: [...new Set([small, large])],
      rollout: 2 * Math.PI * radius,
      cadence: 80,
    });
    return answer.outputs as { range: number; gears: { ring: number; cog: number; development: number }[] };
  }, state);
  const [refusal] = useRefusals({ calculation: "gear-table", refused });
  const pressures = (["front", "rear"] as const).map((end) => ({ end, set: state.settings[`pressure_${end}`] }));
  const low = gears?.gears.reduce((a, b) => (b.development < a.development ? b : a));
  const high = gears?.gears.reduce((a, b) => (b.development > a.development ? b : a));
  return (
    <section class="hand-over-part">
      <h3>{w.handOver.gearsAndTyres}</h3>
      <dl class="hand-over-pairs">
        {low === undefined || high === undefined ? (
          <Cell line term={w.handOver.gears} told={refusal ?? w.handOver.notRecorded} />
        ) : (
          <>
            <Cell line term={w.handOver.lowest} told={w.handOver.gear(low.ring, low.cog, formatNumber(low.development, 2))} />
            <Cell
              line
              term={w.handOver.highest}
              told={w.handOver.gear(high.ring, high.cog, formatNumber(high.development, 2))}
            />
          </>
        )}
        {pressures.map(({ end, set }) => (
          <Cell
            key={end}
            line
            term={w.handOver.pressure[end]}
            told={set === undefined ? w.handOver.notRecorded : show(set.value, "bar", 2)}
          />
        ))}
      </dl>
    </section>
  );
}

function Next({ due }: { due: Due[] }) {
  return (
    <section class="hand-over-part">
      <h3>{w.handOver.next}</h3>
      <ul>
        <li>{w.handOver.retorque}</li>
        {due.map((one) => (
          <li key={one.due}>
            <strong>{said(one.title)}</strong> {said(one.text)}
          </li>
        ))}
      </ul>
    </section>
  );
}
