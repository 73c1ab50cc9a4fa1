/** On a phone that has recorded nothing yet: the way to the first record. Gone with it, or when it is put off. */

import { fact } from "../../store/database";
import { keep } from "../../store/drafts";
import { words } from "../../words";
import { useLoaded } from "../loading";
import { writes } from "../who";
import "./first.css";

const putOff = keep.kept("first-offer-put-off", false);

export function FirstOffer() {
  // The pen has moved once anything was ever written here, however long ago.
  const pen = useLoaded(
    async () => {
      await keep.loaded("first-offer-put-off");
      return (await fact("pen"))?.n ?? 0;
    },
    "pen",
    undefined,
  );
  if (pen !== 0 || putOff.value || !writes("adjust")) return null;
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
