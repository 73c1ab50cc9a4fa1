/** Does it fit: the bike with its joints marked, what is left to measure, then every joint, the gravest first. */

import { useState } from "preact/hooks";
import { Sheet } from "../../controls/sheet";
import type { FitReport } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState, ShopState } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { systemMass, useAsked } from "./asked";
import { FitDrawing } from "./fit-drawing";
import { SheetPage } from "./sheet-page";
import { type FitResult, FitSign } from "./signs";
import { w } from "./words";
import "../../controls/drawer.css";
import "./fits.css";

const ORDER: FitResult[] = ["does-not-fit", "not-known", "fits-with", "fits"];

export function Fits() {
  return <SheetPage title={w.fits.title}>{({ state }, shop) => <Report state={state} shop={shop} />}</SheetPage>;
}

function Report({ state, shop }: { state: BikeState; shop: ShopState }) {
  const report = useAsked(() => kernel.fits(state.parts, systemMass(state), shop.interfaces), state, shop);
  const [touched, setTouched] = useState<number[] | null>(null);
  if (report === undefined) return <p class="quiet">{words.reading}</p>;
  if (report.joints.length === 0) {
    return (
      <>
        <p>{w.fits.nothing}</p>
        <a class="button" href={`/${state.subject}/parts`}>
          {w.parts.title}
        </a>
      </>
    );
  }
  return (
    <>
      <Tally report={report} />
      <FitDrawing state={state} joints={report.joints} onOpen={setTouched} />
      <p class="quiet">{w.fits.tap}</p>
      {report.measure.length > 0 && (
        <section class="part">
          <h2>{w.fits.measure}</h2>
          <p class="quiet">{w.fits.measureHelp}</p>
          <ul class="ruled measure-list">
            {report.measure.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
      )}
      {ORDER.map((result) => (
        <Joints key={result} result={result} report={report} subject={state.subject} />
      ))}
      <p class="quiet">{w.fits.caution}</p>
      {touched === null ? null : (
        <Sheet title={w.fits.here} onClose={() => setTouched(null)}>
          <ul class="ruled">
            {touched.map((number) => (
              <JointLine key={number} number={number} report={report} subject={state.subject} />
            ))}
          </ul>
        </Sheet>
      )}
    </>
  );
}

function Tally({ report }: { report: FitReport }) {
  return (
    <ul class="fit-tally">
      {ORDER.map((result) => {
        const count = report.joints.filter((joint) => joint.result === result).length;
        return (
          <li key={result} class={`fit-tally-${result}${count === 0 ? " fit-tally-none" : ""}`}>
            <FitSign result={result} />
            <span class="figure">{count}</span>
            <span>{w.fits.results[result]}</span>
          </li>
        );
      })}
    </ul>
  );
}

/** Joints that fit lie in a drawer: what does not, or is not known, comes first and open. */
function Joints({ result, report, subject }: { result: FitResult; report: FitReport; subject: string }) {
  const numbers = report.joints.flatMap((joint, at) => (joint.result === result ? [at + 1] : []));
  if (numbers.length === 0) return null;
  const lines = (
    <ul class="ruled">
      {numbers.map((number) => (
        <JointLine key={number} number={number} report={report} subject={subject} />
      ))}
    </ul>
  );
  if (result === "fits") {
    return (
      <details class="drawer">
        <summary>
          <strong>{w.fits.results.fits}</strong>
          <span class="figure">{numbers.length}</span>
        </summary>
        {lines}
      </details>
    );
  }
  return (
    <section class="part">
      <h2>{w.fits.results[result]}</h2>
      {lines}
    </section>
  );
}

function JointLine({ number, report, subject }: { number: number; report: FitReport; subject: string }) {
  const joint = report.joints[number - 1];
  if (joint === undefined) return null;
  return (
    <li class="fit-joint">
      <FitSign result={joint.result} />
      <div>
        <strong>
          <span class="figure quiet">{number}</span> {joint.title}
          {joint.end === "" ? "" : `, ${w.ends[joint.end]}`}
        </strong>
        <p class={joint.result === "does-not-fit" ? "fit-reason-stop" : ""}>
          {joint.reason}
          {joint.with === "" ? "" : ` ${w.fits.needs(joint.with)}`}
        </p>
        <div class="fit-parts quiet">
          <Carrier subject={subject} part={joint.part_a} name={joint.a} />
          {joint.part_b !== null && joint.part_b === joint.part_a ? null : (
            <Carrier subject={subject} part={joint.part_b} name={joint.b} />
          )}
        </div>
        <p class="quiet fit-source">{joint.source}</p>
      </div>
    </li>
  );
}

function Carrier({ subject, part, name }: { subject: string; part: string | null; name: string | null }) {
  if (name === null) return null;
  // Without a part of that name it is the kernel's word for what is meant.
  return part === null ? <span>{said(name)}</span> : <a href={`/${subject}/part/${part}`}>{name}</a>;
}
