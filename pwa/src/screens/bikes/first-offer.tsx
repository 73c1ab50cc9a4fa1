/** On a phone that has recorded nothing yet: the way to the first record. Gone with it. */

import { fact } from "../../store/database";
import { words } from "../../words";
import { useLoaded } from "../loading";
import { writes } from "../who";
import "./first.css";

export function FirstOffer() {
  // The pen has moved once anything was ever written here, however long ago.
  const pen = useLoaded(async () => (await fact("pen"))?.n ?? 0, "pen", undefined);
  if (pen !== 0 || !writes("adjust")) return null;
  return (
    <section class="first-offer" aria-label={words.first.offer}>
      <p>{words.first.offerHelp}</p>
      <a class="button main wide" href="/first">
        {words.first.offer}
      </a>
    </section>
  );
}
