/** The sheet every screen is drawn on: title block above, places below, the tab of what is not yet sent. */

import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { Mark } from "../../controls/mark";
import type { VerdictWord } from "../../kernel/types";
import { identity, shutOut } from "../../store/record";
import { words } from "../../words";
import { carryTold, told, undo } from "../writing";
import "../../controls/buttons.css";
import "./page.css";
import { freeFoot } from "./free-foot";
import { ShutOut } from "./shut-out";
import { SyncTab } from "./sync-tab";

export type Place = "bikes" | "lineup" | "bench" | "due" | "device";

export interface Way {
  href: string;
  text: string;
}

interface Props {
  place: Place;
  title: string;
  /** The way here from its place, without the page itself. */
  from?: Way[];
  tabs?: (Way & { here: boolean })[] | undefined;
  verdict?: VerdictWord | undefined;
  under?: ComponentChildren;
  /** Ruled cells of the title block: what a thing is, at a glance. */
  cells?: { label: string; value: string }[];
  /** What stands fixed above the places: the one thing to do. */
  foot?: ComponentChildren;
  children: ComponentChildren;
}

const PLACES: { place: Place; href: string }[] = [
  { place: "bikes", href: "/" },
  { place: "lineup", href: "/lineup" },
  { place: "bench", href: "/bench" },
  { place: "due", href: "/due" },
  { place: "device", href: "/device" },
];

let first = true;

/** Places that tell of bikes. */
const OF_BIKES: Place[] = ["bikes", "lineup", "due"];

/** A phone that was shut out knows no bikes: every sheet that would tell of them says so, and nothing else. */
export function Page(props: Props) {
  if (!(shutOut.value && OF_BIKES.includes(props.place))) return <Sheet {...props} />;
  return (
    <Sheet place={props.place} title={words.places[props.place]}>
      <ShutOut />
    </Sheet>
  );
}

function Sheet({ place, title, from = [], tabs, verdict, under, cells = [], foot, children }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} – Pinchbolt`;
  }, [title]);
  useEffect(() => {
    // A new sheet begins at its title; the very first one leaves the focus to the browser.
    if (!first) {
      scrollTo(0, 0);
      heading.current?.focus({ preventScroll: true });
    }
    first = false;
    carryTold();
  }, []);
  return (
    <div class="page">
      {/* biome-ignore lint/a11y/useValidAnchor: a link within the sheet; the router must not take it for a way to another */}
      <a class="skip" href="#work" onClick={skip}>
        {words.skip}
      </a>
      <header class="title-block">
        <div class="title-top">
          <nav class="way" aria-label={words.wayHere}>
            {from.length === 0 ? (
              <span class="way-shop">{identity.value?.workshop || words.programName}</span>
            ) : (
              <>
                <WayBack />
                {from.map((one) => (
                  <a key={one.href} href={one.href}>
                    {one.text}
                  </a>
                ))}
              </>
            )}
          </nav>
          <SyncTab />
        </div>
        <div class="title-main">
          <h1 ref={heading} tabIndex={-1}>
            {title}
          </h1>
          {verdict === undefined ? null : <Mark verdict={verdict} />}
          {under}
        </div>
        {cells.length === 0 ? null : (
          <dl class="title-cells">
            {cells.map((cell) => (
              <div key={cell.label}>
                <dt>{cell.label}</dt>
                <dd>{cell.value}</dd>
              </div>
            ))}
          </dl>
        )}
        {tabs === undefined ? null : (
          <nav class="title-tabs" aria-label={title}>
            {tabs.map((tab) => (
              <a key={tab.href} href={tab.href} aria-current={tab.here ? "page" : undefined}>
                {tab.text}
              </a>
            ))}
          </nav>
        )}
      </header>
      <main id="work" tabIndex={-1}>
        {children}
      </main>
      <div class="page-foot" ref={freeFoot}>
        <Told />
        {foot ? <section aria-label={words.hereToDo}>{foot}</section> : null}
        <nav class="places" aria-label={words.placesLabel}>
          {PLACES.map((one) => (
            <a key={one.place} href={one.href} aria-current={one.place === place ? "page" : undefined}>
              {words.places[one.place]}
            </a>
          ))}
        </nav>
      </div>
    </div>
  );
}

/** The arrow of a dimension line, pointing back. */
function WayBack() {
  return (
    <svg class="way-back" width="26" height="10" viewBox="0 0 26 10" aria-hidden="true" focusable="false">
      <path d="M0 5 L10 1 V9Z" />
      <path class="way-line" d="M8 5 H26" />
    </svg>
  );
}

function skip(event: MouseEvent): void {
  event.preventDefault();
  document.getElementById("work")?.focus();
}

function Told() {
  const now = told.value;
  return (
    <div class="told" role="status">
      {now === null ? null : (
        <>
          <span>{now.text}</span>
          {now.entries.length > 0 && (
            <button type="button" class="plain" onClick={() => void undo(now.entries)}>
              {words.undo}
            </button>
          )}
          <button
            type="button"
            class="plain"
            onClick={() => {
              told.value = null;
            }}
          >
            {words.close}
          </button>
        </>
      )}
    </div>
  );
}
