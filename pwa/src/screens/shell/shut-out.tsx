/** The workshop shut this phone out: what is not sent, and the ways on. */

import { saveQueue, syncState, waiting } from "../../store/sync";
import { words } from "../../words";

export function ShutOut() {
  const { unsent, refused } = syncState.value;
  const kept = waiting() + refused.length;
  return (
    <div class="empty" role="status">
      <p>
        <strong>{words.shutOut.title}</strong>
      </p>
      <p>{words.shutOut.help}</p>
      {unsent === null ? null : <p>{kept === 0 ? words.shutOut.allSent : words.shutOut.unsent(kept)}</p>}
      <div class="buttons">
        {kept > 0 ? (
          <button type="button" class="button main" onClick={() => void saveQueue()}>
            {words.device.saveQueue}
          </button>
        ) : null}
        <a class="button" href="/pair">
          {words.pair.again}
        </a>
      </div>
    </div>
  );
}
