/** A newer version, taken only when asked for. */

import { applyUpdate, updateReady } from "../../device";
import { words } from "../../words";

export function Update() {
  if (!updateReady.value) return null;
  return (
    <section class="part update">
      <p>{words.device.newVersion}</p>
      <button type="button" class="button main" onClick={applyUpdate}>
        {words.device.takeIt}
      </button>
    </section>
  );
}
