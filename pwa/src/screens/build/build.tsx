/** A bike's Build: what comes next, what is done, what waits for what, and the ways to each page of the work. */

import { useState } from "preact/hooks";
import type { PlannedStep } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState, ShopState } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { show } from "../../units";
import { words } from "../../words";
import { BikePage, useBikeId } from "../bike/frame";
import { useShop } from "../loading";
import { spaced } from "../names";
import { writes } from "../who";
import { useWriting } from "../writing";
import { systemMass, useAsked } from "./asked";
import "./build.css";
import { StepSign } from "./signs";
import { w } from "./words";

const CUTS = ["steerer", "hose-front", "hose-rear", "chain", "seatpost"] as const;

export function Build() {
  const shop = useShop();
  return (
    <BikePage tab="build">
      {({ state }) => (shop === undefined ? <p class="quiet">{words.reading}</p> : <Plan state={state} shop={shop} />)}
    </BikePage>
  );
}

function Plan({ state, shop }: { state: BikeState; shop: ShopState }) {
  const id = useBikeId();
  const plan = useAsked(() => kernel.plan(state, shop, systemMass(state)), state, shop);
  const [all, setAll] = useState(false);
  const goal = state.described.weight_goal;
  const weighed = state.parts.filter((part) => part.weighed !== null).length;
  const cut = state.cuts.filter((one, i) => !state.cuts.slice(i + 1).some((later) => later.what === one.what));
  const ready = plan?.filter((step) => step.status === "ready") ?? [];
  const done = plan?.filter((step) => step.status === "done").length ?? 0;
  return (
    <>
      {plan === undefined ? (
        <p class="quiet">{words.reading}</p>
      ) : (
        <section class="part">
          <h2>{w.plan.next}</h2>
          <p>
            <span class="figure build-done">
              {done}/{plan.length}
            </span>{" "}
            {w.plan.stepsDone}
            {shop.plan.length > 0 ? ` · ${w.plan.own}` : ""}
          </p>
          <Ruler plan={plan} />
          <ol class="ruled plan">
            {(all ? plan : ready).map((step) => (
              <Step key={step.step} step={step} id={id} />
            ))}
          </ol>
          {!all && ready.length === 0 ? <p>{done === plan.length ? w.plan.allDone : w.plan.nothingReady}</p> : null}
          <div class="buttons">
            <button type="button" class="button small" aria-expanded={all} onClick={() => setAll(!all)}>
              {all ? w.plan.onlyReady : w.plan.whole}
            </button>
            {writes("plan-define") ? (
              <a class="button small" href={`/bike/${id}/plan`}>
                {w.plan.edit}
              </a>
            ) : null}
          </div>
        </section>
      )}
      <section class="part">
        <h2>{w.pages}</h2>
        <nav class="build-ways" aria-label={w.pages}>
          <WayOn href={`/bike/${id}/parts`} title={w.parts.title} told={w.parts.count(state.parts.length)} />
          <WayOn href={`/bike/${id}/fits`} title={w.fits.title} told={w.fits.way} />
          <WayOn
            href={`/bike/${id}/weigh`}
            title={w.weigh.title}
            told={`${w.weigh.weighedOf(weighed, state.parts.length)}${goal === null ? "" : ` · ${w.weigh.goalIs(show(goal, "g", 0))}`}`}
          />
          <WayOn href={`/bike/${id}/torque`} title={w.torque.title} told={w.torque.count(Object.keys(state.joints).length)} />
          {CUTS.map((what) => {
            const made = cut.find((one) => one.what === what);
            return (
              <WayOn
                key={what}
                href={`/bike/${id}/cut/${what}`}
                title={w.cut.of(spaced(what))}
                told={made === undefined ? w.cut.notYet : w.cut.madeAt(show(made.result, made.unit, 1))}
              />
            );
          })}
          <WayOn href={`/bike/${id}/hand-over`} title={w.handOver.title} told={w.handOver.way} />
        </nav>
      </section>
    </>
  );
}

function WayOn({ href, title, told }: { href: string; title: string; told: string }) {
  return (
    <a class="build-way" href={href}>
      <strong class="build-way-title">{title}</strong>
      <span class="quiet">{told}</span>
    </a>
  );
}

/** The plan along an edge: a filled length for what is done, an open one for what is ready, a gap for what waits. */
function Ruler({ plan }: { plan: PlannedStep[] }) {
  return (
    <svg
      class="plan-ruler"
      viewBox={`0 0 ${plan.length * 10} 14`}
      preserveAspectRatio="none"
      aria-hidden="true"
      focusable="false"
    >
      {plan.map((step, i) => (
        <path
          key={step.step}
          class={`plan-ruler-${step.status}`}
          d={step.status === "done" ? `M${i * 10} 1 h9 v12 h-9 Z` : `M${i * 10 + 0.5} 1.5 h8 v11 h-8 Z`}
        />
      ))}
    </svg>
  );
}

function Step({ step, id }: { step: PlannedStep; id: string }) {
  const { write, busy } = useWriting();
  const href = pageOf(step.page, id);
  const jobs =
    step.status === "ready" && writes("service")
      ? step.missing.filter((one) => one.startsWith("service:")).map((one) => one.slice(8))
      : [];
  const inside = (
    <>
      <StepSign status={step.status} />
      <span class="step-text">
        <strong class="step-title">{step.title}</strong>
        <span class="quiet">
          {step.status === "blocked"
            ? w.plan.waits(step.by)
            : step.status === "done"
              ? w.plan.done
              : w.plan.lacks(step.missing.map(lacking))}
        </span>
      </span>
    </>
  );
  return (
    <li class={`plan-step plan-${step.status}`}>
      {href === null ? (
        <div class="plan-line">{inside}</div>
      ) : (
        <a class="plan-line" href={href}>
          {inside}
        </a>
      )}
      {jobs.map((job) => (
        <button
          key={job}
          type="button"
          class="button small step-act"
          disabled={busy}
          onClick={() => void write([{ subject: `bike/${id}`, kind: "service", body: { job } }], w.plan.recorded(spaced(job)))}
        >
          {w.plan.record}
          <span class="unseen">: {spaced(job)}</span>
        </button>
      ))}
    </li>
  );
}

/** `measure:steerer_mark` as a person says it. */
function lacking(what: string): string {
  const [kind = "", name = ""] = what.split(":");
  const said = kind === "measure" ? (w.position.names[name] ?? spaced(name)) : spaced(name);
  return w.plan.lacking[kind]?.(small(said)) ?? small(spaced(what));
}

export function pageOf(page: string, id: string): string | null {
  const [where = "", which = ""] = page.split("/");
  const bike = `/bike/${id}`;
  if (where === "calc") {
    if (which === "position-transfer") return `${bike}/position`;
    return which === "steerer-cut" ? `${bike}/cut/steerer` : `/bench/${which}`;
  }
  if (where === "cut" || where === "check") return `${bike}/${where}/${which}`;
  if (["torque", "position", "parts", "weigh", "fits", "adjust"].includes(where)) return `${bike}/${where}`;
  return null;
}
