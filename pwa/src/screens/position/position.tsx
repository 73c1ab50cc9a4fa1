/** Position: the old bike's measures once, how to carry them over onto this frame, and what was built held against it. */

import { useState } from "preact/hooks";
import { BikeDrawing, type BikeSpot } from "../../drawing/bike";
import type { BuiltPosition } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import { BikePage } from "../bike/frame";
import { useAsked } from "../build/asked";
import { MeasureSheet } from "../build/measure-sheet";
import { HeldSign } from "../build/signs";
import { w } from "../build/words";
import { type Names, useNames } from "../names";
import { OnlyLook } from "../only-look";
import { writes } from "../who";
import { useWriting } from "../writing";
import { BarTransfer } from "./bar-transfer";
import { SaddleTransfer } from "./saddle-transfer";
import "../../controls/drawer.css";
import "./position.css";

const OLD = ["target_bar_x", "target_bar_y", "saddle_height", "saddle_setback", "saddle_tilt", "crank_old", "pedal_stack_old"];
const FRAME = ["stack", "reach", "head_angle", "seat_angle", "stem_height", "seat_tube", "crank_new", "pedal_stack_new"];
const POST = ["post_offset", "post_length", "min_insertion", "rail_to_top", "rail_range"];

/** What a built line is recorded as. The saddle and levers are settings, so that a baseline freezes them. */
const BUILT_AS_SETTING = /^(saddle|lever)_/;

interface Measuring {
  what: string;
  label?: string;
  unit?: string;
  setting?: boolean;
}

/** What is measured where the drawing is touched: how the bike is built, as in the table below. */
function measuringOf(spot: BikeSpot, names: Names): Measuring {
  const { label } = names.of(spot);
  if (spot === "bar_reach") return { what: "bar_x", label: w.position.builtLabel(label), unit: "mm" };
  if (spot === "bar_height") return { what: "bar_y", label: w.position.builtLabel(label), unit: "mm" };
  if (spot === "spacers_below") return { what: spot };
  return { what: spot, label: w.position.builtLabel(label), unit: names.of(spot).unit, setting: true };
}

export function Position() {
  return <BikePage tab="position">{({ state }) => <Sheets state={state} />}</BikePage>;
}

function Sheets({ state }: { state: BikeState }) {
  const [measuring, setMeasuring] = useState<Measuring | null>(null);
  const names = useNames();
  const may = writes("measure");
  const ways = {
    named: (spot: BikeSpot) => names.of(spot).label,
    open: (spot: BikeSpot) => setMeasuring(measuringOf(spot, names)),
  };
  return (
    <>
      <BikeDrawing state={state} {...(may ? { ways } : {})} />
      {may ? <p class="quiet">{w.position.tap}</p> : null}
      <OnlyLook>
        <Measures title={w.position.old} help={w.position.oldHelp} which={OLD} state={state} onMeasure={setMeasuring} />
        <Measures title={w.position.frame} which={FRAME} state={state} onMeasure={setMeasuring} />
        <BarTransfer state={state} />
        <Measures title={w.position.post} which={POST} state={state} onMeasure={setMeasuring} />
        <SaddleTransfer state={state} />
        <Built state={state} onMeasure={setMeasuring} />
      </OnlyLook>
      {measuring === null ? null : <MeasureSheet state={state} {...measuring} onClose={() => setMeasuring(null)} />}
    </>
  );
}

interface MeasuresProps {
  title: string;
  help?: string;
  which: string[];
  state: BikeState;
  onMeasure: (measuring: Measuring) => void;
}

/** A drawer of measures: shut once all are there, since they are taken once. */
function Measures({ title, help, which, state, onMeasure }: MeasuresProps) {
  const names = useNames();
  const missing = which.filter((one) => state.measures[one] === undefined);
  return (
    <details class="drawer" open={missing.length > 0}>
      <summary>
        <strong>{title}</strong>
        <span class="quiet">{missing.length === 0 ? w.position.allThere : w.position.toMeasure(missing.length)}</span>
      </summary>
      {help === undefined ? null : <p class="quiet">{help}</p>}
      <ul class="ruled settings">
        {which.map((one) => {
          const measured = state.measures[one];
          const named = names.of(one);
          return (
            <li key={one}>
              <button type="button" class="line-button setting" onClick={() => onMeasure({ what: one })}>
                <span>{w.position.names[one] ?? named.label}</span>
                <span class={measured === undefined ? "figure blue" : "figure"}>
                  {measured === undefined ? words.ways.measure : show(measured.value, measured.unit ?? named.unit, 1)}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
    </details>
  );
}

function Built({ state, onMeasure }: { state: BikeState; onMeasure: (measuring: Measuring) => void }) {
  const found = useAsked(() => kernel.position(state), state);
  const { write, busy } = useWriting();
  if (found === undefined) return <p class="quiet">{words.reading}</p>;
  const freeze = () =>
    void write(
      [{ subject: state.subject, kind: "baseline", body: { name: w.position.baseline } }],
      words.now.frozen(w.position.baseline),
    );
  return (
    <section class="part">
      <h2>{w.position.built}</h2>
      <p class="held-worst">
        <HeldSign result={found.worst} /> <strong>{w.position.worst[found.worst]}</strong>
      </p>
      <table class="figures built">
        <thead>
          <tr>
            <th>
              <span class="unseen">{w.position.what}</span>
            </th>
            <th>{w.position.wanted}</th>
            <th>{w.position.isNow}</th>
            <th>{w.position.off}</th>
          </tr>
        </thead>
        <tbody>
          {found.lines.map((line) => (
            <Line key={line.name} line={line} onMeasure={onMeasure} />
          ))}
        </tbody>
      </table>
      <h3>{w.position.levers}</h3>
      <table class="figures built">
        <thead>
          <tr>
            <th>
              <span class="unseen">{w.position.what}</span>
            </th>
            <th>{w.position.left}</th>
            <th>{w.position.right}</th>
            <th>{w.position.off}</th>
          </tr>
        </thead>
        <tbody>
          {found.pairs.map((pair) => (
            <tr key={pair.name}>
              <th scope="row">
                <span class="held">
                  <HeldSign result={pair.result} /> {pair.label}
                </span>
              </th>
              {(["left", "right"] as const).map((side) => (
                <td key={side}>
                  <button
                    type="button"
                    class="cell-button figure"
                    aria-label={`${pair.label}, ${w.position[side]}`}
                    onClick={() =>
                      onMeasure({
                        what: `${pair.name}_${side}`,
                        label: `${pair.label}, ${w.position[side]}`,
                        unit: pair.unit,
                        setting: true,
                      })
                    }
                  >
                    {pair[side] === null ? "?" : formatNumber(pair[side], 1)}
                  </button>
                </td>
              ))}
              <td class="figure">{pair.off === null ? "–" : signed(pair.off)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="quiet">{w.position.tolerances(tolerances(found))}</p>
      <button type="button" class="button wide" disabled={busy || Object.keys(state.settings).length === 0} onClick={freeze}>
        {w.position.freeze}
      </button>
      {state.baselines.length > 0 ? <p class="quiet">{w.position.frozen(state.baselines.at(-1)?.name ?? "")}</p> : null}
    </section>
  );
}

function Line({ line, onMeasure }: { line: BuiltPosition["lines"][number]; onMeasure: (measuring: Measuring) => void }) {
  return (
    <tr>
      <th scope="row">
        <span class="held">
          <HeldSign result={line.result} /> {line.label}
        </span>
      </th>
      <td class="figure">{line.wanted === null ? "?" : formatNumber(line.wanted, 1)}</td>
      <td>
        <button
          type="button"
          class="cell-button figure"
          aria-label={`${line.label}, ${w.position.isNow}`}
          onClick={() =>
            onMeasure({
              what: line.name,
              label: w.position.builtLabel(line.label),
              unit: line.unit,
              setting: BUILT_AS_SETTING.test(line.name),
            })
          }
        >
          {line.built === null ? "?" : formatNumber(line.built, 1)}
        </button>
      </td>
      <td class={line.result === "off" ? "figure held-off" : "figure"}>{line.off === null ? "–" : signed(line.off)}</td>
    </tr>
  );
}

function signed(value: number): string {
  return `${value > 0 ? "+" : ""}${formatNumber(value, 1)}`;
}

function tolerances(found: BuiltPosition): string {
  return [...found.lines, ...found.pairs].map((one) => `${small(one.label)} ${show(one.tolerance, one.unit, 1)}`).join(", ");
}
