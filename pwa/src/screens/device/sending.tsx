/** What waits for the server, what the server would not take and why, and the ways out of here. */

import { useState } from "preact/hooks";
import { isTight, storage } from "../../device";
import { said } from "../../languages/spoken";
import { identity, record, shutOut } from "../../store/record";
import { saveQueue, syncNow, syncState, waiting } from "../../store/sync";
import type { Refused } from "../../store/types";
import { problems } from "../../store/words";
import { words } from "../../words";
import { telling } from "../bike/telling";
import { useNames } from "../names";
import { whenOf } from "../when";
import { Row } from "./device";
import { Mend } from "./mend";
import { canBeMended, nameOf } from "./mending";
import { PhotosWaiting } from "./photos";

export function Sending() {
  const { unsent, refused, dealtWith, state, said, lastOk, clock } = syncState.value;
  if (identity.value === null) return null;
  return (
    <section class="part">
      <h2>{words.device.sending}</h2>
      <p class="sending-count">
        {unsent === null ? (
          words.reading
        ) : (
          <>
            <span class="figure">{unsent}</span> {words.device.toSend(unsent)}
          </>
        )}
      </p>
      <p role="status">
        <strong>{words.sync.states[state]}</strong> {shutOut.value ? problems.shutOut : said}
      </p>
      {clock === null ? null : <p>{clock}</p>}
      {waiting() > 0 && storage.value.persisted === false ? <p>{words.device.notSafe}</p> : null}
      {isTight(storage.value) ? <p>{words.device.tight}</p> : null}
      <dl class="told-rows">
        <Row term={words.device.lastOk} told={lastOk === null ? words.device.notSinceOpened : whenOf(lastOk)} />
      </dl>
      <div class="buttons">
        <button type="button" class="button main" disabled={state === "sending"} onClick={() => void syncNow()}>
          {words.device.sendNow}
        </button>
        {waiting() + refused.length > 0 ? (
          <button type="button" class="button" onClick={() => void saveQueue()}>
            {words.device.saveQueue}
          </button>
        ) : null}
        {state === "signed-out" ? (
          <a class="button" href="/pair">
            {words.pair.again}
          </a>
        ) : null}
      </div>
      <PhotosWaiting />
      {refused.length > 0 ? (
        <>
          <h3>{words.device.needsYou}</h3>
          <p class="quiet">{words.device.needsYouHelp}</p>
          <ul class="ruled">
            {refused.map((one) => (
              <RefusedEntry key={one.entry.id} refused={one} />
            ))}
          </ul>
        </>
      ) : null}
      {dealtWith.length > 0 ? (
        <details>
          <summary>{words.device.refusedBefore(dealtWith.length)}</summary>
          <ul class="ruled">
            {dealtWith.map((one) => (
              <li key={one.entry.id}>
                <WhatWasRefused refused={one} />
                <p>{one.mended ? words.device.mended : words.device.givenUp}</p>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

/** `mending`: what is wrong with a field is told at the field. */
function WhatWasRefused({ refused: { entry, errors }, mending }: { refused: Refused; mending?: boolean }) {
  const names = useNames();
  return (
    <>
      <strong>{words.kinds[entry.kind] ?? entry.kind}</strong> {telling(entry.kind, entry.body, names)}
      <p class="quiet">{whenOf(entry.noted_at)}</p>
      <ul>
        {(mending ? errors.filter((error) => nameOf(error) === null) : errors).map((error) => (
          <li key={`${error.field}${error.wanted}`}>{words.device.refusal(error.field, error.given, said(error.wanted))}</li>
        ))}
      </ul>
    </>
  );
}

function RefusedEntry({ refused }: { refused: Refused }) {
  const [sure, setSure] = useState(false);
  const [mending, setMending] = useState(false);
  const { entry } = refused;
  return (
    <li class="refused">
      <WhatWasRefused refused={refused} mending={mending} />
      {mending ? (
        <Mend refused={refused} onClose={() => setMending(false)} />
      ) : sure ? (
        <div class="buttons">
          <button type="button" class="button small" onClick={() => void record.dismiss(entry.id)}>
            {words.device.giveUp}
          </button>
          <button type="button" class="button small" onClick={() => setSure(false)}>
            {words.device.keepHere}
          </button>
        </div>
      ) : (
        <div class="buttons">
          {canBeMended(refused) ? (
            <button type="button" class="button small main" onClick={() => setMending(true)}>
              {words.device.mend}
            </button>
          ) : null}
          <button type="button" class="button small" onClick={() => setSure(true)}>
            {words.device.dealtWith}
          </button>
        </div>
      )}
    </li>
  );
}
