/** Nothing of any bike is on this phone yet: why, and what to do about it. */

import { identity } from "../../store/record";
import { syncState } from "../../store/sync";
import { words } from "../../words";
import { runsWorkshop } from "../who";

export function NoBikes() {
  if (identity.value === null) {
    return (
      <div class="empty">
        <p>{words.bikes.notPaired}</p>
        <p class="quiet">{words.bikes.notPairedHow}</p>
        <div class="buttons">
          <a class="button" href="/pair">
            {words.pair.title}
          </a>
          <a class="button" href="/bench">
            {words.places.bench}
          </a>
        </div>
      </div>
    );
  }
  const none = runsWorkshop() ? words.bikes.none : words.bikes.noneYours;
  return <p class="empty">{syncState.value.state === "sending" ? words.bikes.fetching : none}</p>;
}
