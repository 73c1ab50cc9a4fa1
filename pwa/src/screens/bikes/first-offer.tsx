/** On a phone that has recorded nothing yet: the way to the first record. Gone with it, or when it is put off. */

import { fact } from "../../store/database";
import { keep } from "../../store/drafts";
import { words } from "../../words";
import { useLoaded } from "../loading";
import { writes } from "../who";
import "./first.css";

const KEPT = "first-offer-put-off";
const putOff = keep.kept(KEPT, false);

/** Whether to offer it; undefined until the phone's store has said, so that nothing moves on the sheet afterwards. */
export function useFirstOffer(): boolean | undefined {
  // The pen has moved once anything was ever written here, however long ago.
  const written = useLoaded(
    async () => {
      await keep.loaded(KEPT);
      return (await fact("pen"))?.n ?? 0;
    },
    "pen",
    undefined,
  );
  return written === undefined ? undefined : written === 0 && !putOff.value && writes("adjust");
}

export function FirstOffer() {
  return (
    <section class="first-offer" aria-label={words.first.offer}>
      <p>{words.first.offerHelp}</p>
      <div class="buttons">
        <a class="button" href="/first">
          {words.first.offer}
        </a>
        <button
          type="button"
          class="plain"
          onClick={() => {
            putOff.value = true;
          }}
        >
          {words.first.notNow}
        </button>
      </div>
    </section>
  );
}
