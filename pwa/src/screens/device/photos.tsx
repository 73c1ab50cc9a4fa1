/** Photos go apart from entries: how many wait, and which the server would not take. */

import { giveUpPhoto, photoState } from "../../store/photos";
import { words } from "../../words";
import { Shown } from "../check/shots";

export function PhotosWaiting() {
  const { waiting, refused } = photoState.value;
  if (waiting + refused.length === 0) return null;
  return (
    <>
      {waiting > 0 ? <p>{words.photo.waiting(waiting)}</p> : null}
      {refused.map((one) => (
        <div key={one.sha256} class="part">
          <p>{words.photo.refused(one.why)}</p>
          <Shown sha256={one.sha256} alt={words.photo.of("")} />
          <button type="button" class="button small" onClick={() => void giveUpPhoto(one.sha256)}>
            {words.device.giveUp}
          </button>
        </div>
      ))}
    </>
  );
}
