/** The parts on a bike by slot: what each weighs, costs, is marked with and joins to. What was taken off stays below. */

import { useState } from "preact/hooks";
import type { PartState } from "../../kernel/types";
import { show } from "../../units";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { spaced } from "../names";
import { dateOf } from "../when";
import { money } from "./money";
import { SheetPage } from "./sheet-page";
import { slotOrder } from "./slots";
import { w } from "./words";
import "./parts.css";

const PAGE = 80;

export function Parts() {
  const id = useBikeId();
  return (
    <SheetPage
      title={w.parts.title}
      foot={
        <div class="foot-act foot-two">
          <a class="button main" href={`/bike/${id}/part/new`}>
            {w.parts.add}
          </a>
          <a class="button" href={`/bike/${id}/import`}>
            {w.parts.import}
          </a>
        </div>
      }
    >
      {({ state }) => {
        const parts = [...state.parts].sort((a, b) => slotOrder(a.slot) - slotOrder(b.slot));
        const slots = new Set(parts.map((part) => part.slot));
        const needed = (state.described.needed_slots ?? []).filter((slot) => !slots.has(slot));
        return (
          <>
            {parts.length === 0 ? <p>{w.parts.none}</p> : <PartList parts={parts} id={id} />}
            {needed.length > 0 && (
              <section class="part">
                <h2>{w.parts.missing}</h2>
                <ul class="ruled">
                  {needed.map((slot) => (
                    <li key={slot}>
                      <a class="part-line" href={`/bike/${id}/part/new?slot=${encodeURIComponent(slot)}`}>
                        <span class="part-slot">{spaced(slot)}</span>
                        <span class="blue">{w.parts.addThis}</span>
                      </a>
                    </li>
                  ))}
                </ul>
              </section>
            )}
            <a class="button small" href={`/bike/${id}/interfaces`}>
              {w.parts.ownKinds}
            </a>
            {state.removed.length > 0 && (
              <section class="part">
                <h2>{w.parts.removed}</h2>
                <ul class="ruled">
                  {[...state.removed]
                    .reverse()
                    .slice(0, PAGE)
                    .map((part) => (
                      <li key={part.entry} class="part-gone">
                        <span class="part-slot quiet">{spaced(part.slot)}</span>
                        <strong>{part.name}</strong>
                        <span class="quiet">
                          {w.parts.gone(dateOf(part.removed_at), words.km(part.ran_km), part.reason ?? "")}
                        </span>
                      </li>
                    ))}
                </ul>
              </section>
            )}
          </>
        );
      }}
    </SheetPage>
  );
}

function PartList({ parts, id }: { parts: PartState[]; id: string }) {
  const [most, setMost] = useState(PAGE);
  return (
    <section class="part" aria-label={w.parts.title}>
      <ul class="ruled parts">
        {parts.slice(0, most).map((part) => (
          <li key={part.part}>
            <a class="part-line" href={`/bike/${id}/part/${part.part}`}>
              <span class="part-slot quiet">{spaced(part.slot)}</span>
              <Mass part={part} />
              <strong class="part-name">
                {part.name}
                {(part.count ?? 1) > 1 ? <span class="figure"> ×{part.count}</span> : null}
              </strong>
              <span class="part-more quiet">{about(part)}</span>
            </a>
          </li>
        ))}
      </ul>
      {parts.length > most && (
        <button type="button" class="button small" onClick={() => setMost(most + 4 * PAGE)}>
          {w.parts.more(parts.length - most)}
        </button>
      )}
    </section>
  );
}

/** What the scale said stands upright; what is only claimed stands in brackets; nothing is a question mark. */
function Mass({ part }: { part: PartState }) {
  if (part.weighed !== null) return <span class="figure part-mass">{show(part.weighed, "g", 1)}</span>;
  if (part.claimed !== undefined && part.claimed !== null) {
    return (
      <span class="figure part-mass part-claimed">
        ({show(part.claimed, "g", 0)})<span class="unseen"> {w.weigh.claimedOnly}</span>
      </span>
    );
  }
  return (
    <span class="figure part-mass">
      ?<span class="unseen"> {w.weigh.notWeighed}</span>
    </span>
  );
}

function about(part: PartState): string {
  const interfaces = part.interfaces?.length ?? 0;
  const markings = Object.keys(part.markings ?? {}).length;
  return [
    interfaces > 0 ? w.parts.interfacesCount(interfaces) : w.parts.noInterfaces,
    markings > 0 ? w.parts.markingsCount(markings) : "",
    part.price ? money(part.price) : "",
  ]
    .filter((one) => one !== "")
    .join(" · ");
}
