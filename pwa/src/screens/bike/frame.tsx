/** What all sheets of one bike share: title block with its name, mark and tabs; and the forms' way back to it. */

import type { ComponentChildren } from "preact";
import { useLocation, useRoute } from "preact-iso";
import { Problem } from "../../controls/problem";
import type { Doubt } from "../../kernel/use-types";
import { show } from "../../units";
import { words } from "../../words";
import { type BikeNow, useBike } from "../loading";
import { Page } from "../shell/page";
import { nameOf } from "../when";
import { writes } from "../who";
import { useWriting } from "../writing";
import { useDoubts } from "./doubts";

export type Tab = "now" | "build" | "position" | "log" | "checks";

export function useBikeId(): string {
  return useRoute().params.id ?? "";
}

export function BikePage({
  tab,
  children,
  foot,
}: {
  tab: Tab;
  children: (bike: BikeNow) => ComponentChildren;
  foot?: ComponentChildren;
}) {
  const id = useBikeId();
  const bike = useBike(id);
  const from = [{ href: "/", text: words.places.bikes }];
  if (!bike) {
    return (
      <Page place="bikes" title={bike === null ? words.bikes.notHere : words.reading} from={from}>
        {bike === null ? <p>{words.bikes.notHereHelp}</p> : null}
      </Page>
    );
  }
  const { described, standing } = bike.state;
  const tabs = (["now", "build", "position", "log", "checks"] as const).map((one) => ({
    href: one === "now" ? `/bike/${id}` : `/bike/${id}/${one}`,
    text: words.tabs[one],
    here: one === tab,
  }));
  const weighed = bike.state.weighed.bike;
  const cells = [
    { label: words.cells.rider, value: described.rider ? nameOf(described.rider) : "–" },
    { label: words.cells.use, value: described.use ?? "–" },
    { label: words.cells.run, value: show(bike.state.km, "km", 0) },
    ...(weighed === undefined ? [] : [{ label: words.cells.weighs, value: show(weighed.value, "g", 0) }]),
  ];
  return (
    <Page
      place="bikes"
      title={described.name ?? words.bikes.unnamed}
      from={from}
      tabs={tabs}
      verdict={tab === "now" ? undefined : standing.verdict}
      cells={tab === "now" ? cells : []}
      under={
        tab === "now" && writes("describe") ? (
          <a class="button small" href={`/bike/${id}/details`}>
            {words.bikes.details}
          </a>
        ) : undefined
      }
      foot={foot}
    >
      {children(bike)}
    </Page>
  );
}

interface FormProps {
  title: string;
  /** The body to record, or null while something needed is missing. */
  drafts: (subject: string) => { kind: string; body: Record<string, unknown> }[] | null;
  said: string;
  button?: string;
  /** What speaks against it, asked before it is recorded. */
  doubts?: (bike: BikeNow) => Promise<Doubt[]>;
  onRecorded?: () => void;
  children: ComponentChildren | ((bike: BikeNow) => ComponentChildren);
}

/** A small form that records something of a bike and goes back to it. */
export function BikeForm({ title, drafts, said, button, doubts, onRecorded, children }: FormProps) {
  const id = useBikeId();
  const bike = useBike(id);
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const subject = `bike/${id}`;
  const ready = drafts(subject);
  const { sure, question } = useDoubts(subject);
  const record = async () => {
    if (ready === null) return;
    if (bike && doubts !== undefined && !(await sure(() => doubts(bike)))) return;
    const made = await write(
      ready.map((draft) => ({ subject, ...draft })),
      said,
    );
    if (made === null) return;
    onRecorded?.();
    route(`/bike/${id}`, true);
  };
  return (
    <Page
      place="bikes"
      title={title}
      from={[
        { href: "/", text: words.places.bikes },
        { href: `/bike/${id}`, text: bike ? (bike.state.described.name ?? words.bikes.unnamed) : "…" },
      ]}
      foot={
        <div class="foot-act">
          <Problem text={problem} />
          <button type="button" class="button main" disabled={busy || ready === null} onClick={() => void record()}>
            {button ?? words.record}
          </button>
        </div>
      }
    >
      {question}
      <div class="form">
        {typeof children === "function" ? bike ? children(bike) : <p class="quiet">{words.reading}</p> : children}
      </div>
    </Page>
  );
}
