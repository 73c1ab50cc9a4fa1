/** The workshop's own build plan: steps kept, left out, moved, and steps of its own. A plan that waits for itself is refused. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { PlanStep } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { ShopState } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { useWriting } from "../writing";
import { useAsked } from "./asked";
import { SheetPage } from "./sheet-page";
import { w } from "./words";
import "../../controls/tick-line.css";
import "./plan-edit.css";

export function PlanEdit() {
  return <SheetPage title={w.plan.editTitle}>{(_, shop) => <Editor shop={shop} />}</SheetPage>;
}

function Editor({ shop }: { shop: ShopState }) {
  const id = useBikeId();
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const shipped = useAsked(() => kernel.planSteps())?.steps;
  const [changed, setChanged] = useState<PlanStep[] | null>(null);
  const [adding, setAdding] = useState(false);
  const [opened, setOpened] = useState<string | null>(null);
  const steps = changed ?? (shop.plan.length > 0 ? shop.plan : shipped);
  const circular = useAsked(async () => (steps === undefined ? [] : (await kernel.planSteps(steps)).circular), steps);
  if (steps === undefined) return <p class="quiet">{words.reading}</p>;
  const leftOut = (shipped ?? []).filter((one) => !steps.some((step) => step.step === one.step));
  const at = steps.findIndex((one) => one.step === opened);
  const step = steps[at];
  const drop = (gone: PlanStep) =>
    // What waited for it now waits for what it waited for.
    setChanged(
      steps
        .filter((step) => step.step !== gone.step)
        .map((step) =>
          step.after.includes(gone.step)
            ? { ...step, after: [...new Set([...step.after.filter((one) => one !== gone.step), ...gone.after])] }
            : step,
        ),
    );
  const move = (at: number, by: 1 | -1) => {
    const next = [...steps];
    const [taken] = next.splice(at, 1);
    if (taken !== undefined) next.splice(at + by, 0, taken);
    setChanged(next);
  };
  const record = async (plan: PlanStep[]) => {
    if ((await write([{ subject: "workshop", kind: "plan-define", body: { steps: plan } }], w.plan.kept)) !== null) {
      route(`/bike/${id}/build`, true);
    }
  };
  return (
    <>
      <p class="quiet">{w.plan.editHelp}</p>
      <ol class="ruled plan-edit">
        {steps.map((one, i) => (
          <li key={one.step}>
            <button type="button" class="line-button plan-edit-step" onClick={() => setOpened(one.step)}>
              <span class="figure quiet">{i + 1}</span>
              <span class="plan-edit-what">
                <strong>{said(one.title)}</strong>
                {one.after.length > 0 ? (
                  <span class="quiet">{w.plan.after(one.after.map((name) => titleIn(steps, name)))}</span>
                ) : null}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {leftOut.length > 0 && (
        <section class="part">
          <h2>{w.plan.leftOut}</h2>
          <div class="buttons">
            {leftOut.map((step) => (
              <button
                key={step.step}
                type="button"
                class="button small"
                onClick={() =>
                  setChanged([
                    ...steps,
                    { ...step, after: step.after.filter((one) => steps.some((other) => other.step === one)) },
                  ])
                }
              >
                + {said(step.title)}
              </button>
            ))}
          </div>
        </section>
      )}
      <Problem text={ringSaid(circular ?? [], steps)} />
      <Problem text={problem} />
      <div class="buttons">
        <button type="button" class="button small" onClick={() => setAdding(true)}>
          {w.plan.addOwn}
        </button>
        {shop.plan.length > 0 ? (
          <button type="button" class="button small" disabled={busy} onClick={() => void record([])}>
            {w.plan.shipped}
          </button>
        ) : null}
      </div>
      <button
        type="button"
        class="button main wide"
        disabled={busy || changed === null || (circular?.length ?? 1) > 0 || steps.length === 0}
        onClick={() => void record(steps)}
      >
        {w.plan.keep}
      </button>
      {step === undefined ? null : (
        <Step
          key={step.step}
          step={step}
          place={at}
          steps={steps}
          onClose={() => setOpened(null)}
          onMove={(by) => move(at, by)}
          onDrop={() => {
            drop(step);
            setOpened(null);
          }}
          onDone={(after) => {
            setChanged(steps.map((one) => (one.step === step.step ? { ...one, after } : one)));
            setOpened(null);
          }}
        />
      )}
      {adding ? (
        <OwnStep
          steps={steps}
          onClose={() => setAdding(false)}
          onDone={(step) => {
            setChanged([...steps, step]);
            setAdding(false);
          }}
        />
      ) : null}
    </>
  );
}

/** A step's title as it is shown; the name of one that is not there. */
function titleIn(steps: PlanStep[], name: string): string {
  return said(steps.find((one) => one.step === name)?.title ?? name);
}

/** A ring told by its titles, in the order of work and the first said again at its end; null when there is none. */
function ringSaid(circular: string[], steps: PlanStep[]): string | null {
  if (circular.length === 0) return null;
  const titles = circular.map((name) => titleIn(steps, name)).reverse();
  return w.plan.circular([...titles, titles[0] ?? ""]);
}

interface StepProps {
  step: PlanStep;
  /** Its index in `steps`. */
  place: number;
  steps: PlanStep[];
  onClose: () => void;
  onMove: (by: 1 | -1) => void;
  onDrop: () => void;
  onDone: (after: string[]) => void;
}

/**
 * One step: its place, whether it is in the plan at all, and what must come before it: every other step, ticked or not. What would
 * make a ring is refused with the ring's names.
 */
function Step({ step, place, steps, onClose, onMove, onDrop, onDone }: StepProps) {
  const [after, setAfter] = useState(step.after);
  const tried = steps.map((one) => (one.step === step.step ? { ...one, after } : one));
  const circular = useAsked(async () => (await kernel.planSteps(tried)).circular, steps, after.join());
  const ring = circular ?? [];
  return (
    <Sheet title={said(step.title)} onClose={onClose}>
      <div class="plan-edit-acts">
        <button type="button" class="button small" disabled={place === 0} onClick={() => onMove(-1)}>
          {w.plan.up}
        </button>
        <button type="button" class="button small" disabled={place === steps.length - 1} onClick={() => onMove(1)}>
          {w.plan.down}
        </button>
        <span class="figure" role="status">
          {words.check.place(place + 1, steps.length)}
        </span>
        <button type="button" class="button small" onClick={onDrop}>
          {w.plan.leaveOut}
        </button>
      </div>
      <h3>{w.plan.order}</h3>
      <p class="quiet">{w.plan.orderHelp}</p>
      <ul class="ruled">
        {steps
          .filter((one) => one.step !== step.step)
          .map((one) => (
            <li key={one.step}>
              <label class="tick-line">
                <input
                  type="checkbox"
                  checked={after.includes(one.step)}
                  onChange={(event) =>
                    setAfter(event.currentTarget.checked ? [...after, one.step] : after.filter((other) => other !== one.step))
                  }
                />
                <span>{said(one.title)}</span>
              </label>
            </li>
          ))}
      </ul>
      <Problem text={ringSaid(ring, steps)} />
      <button
        type="button"
        class="button main wide"
        disabled={circular === undefined || ring.length > 0}
        onClick={() => onDone(after)}
      >
        {words.done}
      </button>
    </Sheet>
  );
}

function OwnStep({ steps, onClose, onDone }: { steps: PlanStep[]; onClose: () => void; onDone: (step: PlanStep) => void }) {
  const [title, setTitle] = useState("");
  const [after, setAfter] = useState<string | null>(null);
  return (
    <Sheet title={w.plan.addOwn} onClose={onClose}>
      <TextField label={w.plan.stepTitle} value={title} onChange={setTitle} />
      <Choice
        label={w.plan.comesAfter}
        options={[
          { value: "", label: w.ownKinds.nothing },
          ...steps.map((step) => ({ value: step.step, label: said(step.title) })),
        ]}
        value={after}
        onChange={setAfter}
        optional
      />
      <p class="quiet">{w.plan.ownDone}</p>
      <button
        type="button"
        class="button main wide"
        disabled={title.trim() === ""}
        onClick={() => {
          const job = title.trim().toLowerCase();
          onDone({
            step: `own ${job}`,
            title: title.trim(),
            after: after ? [after] : [],
            done_by: [`service:${job}`],
            page: `service/${job}`,
          });
        }}
      >
        {words.done}
      </button>
    </Sheet>
  );
}
