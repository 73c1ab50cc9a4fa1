/** A track that another app shared: what it comes to, and whose ride it was. */

import { useEffect, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { GpxError, readGpx, type Track } from "../../files/gpx";
import { dropShared, sharedFile } from "../../files/shared";
import { show } from "../../units";
import { words } from "../../words";
import { useBikeLines } from "../loading";
import { Page } from "../shell/page";
import { dateOf } from "../when";
import { writes } from "../who";
import { choices } from "./order";

type Found = { track: Track } | { problem: string };

export function Share() {
  const { route } = useLocation();
  const bikes = useBikeLines();
  const [found, setFound] = useState<Found | null>(null);
  const [bike, setBike] = useState<string | null>(null);
  useEffect(() => {
    const read = async (): Promise<Found> => {
      const file = await sharedFile();
      if (file === null) return { problem: words.share.nothing };
      try {
        return { track: readGpx(await file.text()) };
      } catch (error) {
        return { problem: words.share.unreadable(file.name, error instanceof GpxError ? error.message : String(error)) };
      }
    };
    void read().then(setFound);
  }, []);
  const options = choices(bikes ?? []);
  const chosen = bike ?? (options.length === 1 ? (options[0]?.value ?? null) : null);
  const track = found !== null && "track" in found ? found.track : null;
  const mayRide = writes("ride");
  return (
    <Page
      place="bikes"
      title={words.share.title}
      from={[{ href: "/", text: words.places.bikes }]}
      foot={
        track === null || !mayRide ? null : (
          <div class="foot-act">
            <button
              type="button"
              class="button main"
              disabled={chosen === null}
              onClick={() => route(`/${chosen}/ride?shared=1`, true)}
            >
              {words.share.go}
            </button>
          </div>
        )
      }
    >
      {found === null ? <p class="quiet">{words.reading}</p> : null}
      <Problem text={found !== null && "problem" in found ? found.problem : null} />
      {track === null ? null : (
        <div class="form">
          <p>
            {words.share.read(show(track.km, "km", 1), track.startedAt === null ? "" : dateOf(track.startedAt), track.points)}
          </p>
          {mayRide ? (
            <Choice label={words.share.which} options={options} value={chosen} onChange={setBike} />
          ) : (
            <p>{words.share.notYours}</p>
          )}
          <button
            type="button"
            class="button small"
            onClick={() => {
              void dropShared().then(() => route("/", true));
            }}
          >
            {words.share.away}
          </button>
        </div>
      )}
    </Page>
  );
}
