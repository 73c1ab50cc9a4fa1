/** The tab at the sheet's edge: how many entries are not yet sent; hatched while there is no way to the server. */

import { identity } from "../../store/record";
import { syncState, waiting } from "../../store/sync";
import { words } from "../../words";
import "./sync-tab.css";

export function SyncTab() {
  const { unsent, refused, state, lost, fetching } = syncState.value;
  if (identity.value === null) {
    return (
      <a class="sync-tab sync-hatched" href="/pair">
        <span>{words.sync.notPaired}</span>
      </a>
    );
  }
  if (fetching !== null) {
    return (
      <a class="sync-tab sync-fetching" href="/device">
        <span>{words.sync.fetching(fetching.done)}</span>
        <progress
          aria-label={words.sync.fetchingBar}
          {...(fetching.of === null ? {} : { value: fetching.done, max: fetching.of })}
        />
      </a>
    );
  }
  const away = lost || state === "offline" || state === "signed-out" || state === "trouble";
  const needs = refused.length > 0 || state === "signed-out" || state === "trouble";
  const text = () => {
    if (needs) return words.sync.needsYou;
    if (waiting() > 0) return words.sync.toSend(waiting());
    if (away) return words.sync.offline;
    // Nothing is said of what is not counted yet.
    return unsent === null ? words.reading : words.sync.allSent;
  };
  return (
    <a class={`sync-tab${away ? " sync-hatched" : ""}${needs ? " sync-needs" : ""}`} href="/device">
      <span>
        {text()}
        {away && waiting() > 0 ? <span class="unseen"> {words.sync.offline}</span> : null}
      </span>
    </a>
  );
}
