/** Putting the app on the home screen: the browser's own question where it has one, else how it is done; gone once it is there. */

import { install, installed, installOffered } from "../../device";
import { words } from "../../words";

/** Only the browsers of one phone's system have this, and they ask no question of their own. */
const byHand = "standalone" in navigator;

export function HomeScreen() {
  if (installed.value) return null;
  if (installOffered.value) {
    return (
      <button type="button" class="button small" onClick={() => void install()}>
        {words.device.install}
      </button>
    );
  }
  return byHand ? <p class="quiet">{words.device.installByHand}</p> : null;
}
