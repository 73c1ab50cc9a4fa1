/** All bikes, those that must not be ridden first: name, rider, how it stands, and the one line that matters. */

import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { Mark } from "../../controls/mark";
import { TextField } from "../../controls/text-field";
import type { Listed } from "../../folding";
import type { BikeLine } from "../../kernel/use-types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { known, useBikeLines } from "../loading";
import { Page } from "../shell/page";
import { dateOf, nameOf } from "../when";
import { runsWorkshop } from "../who";
import { FirstOffer, useFirstOffer } from "./first-offer";
import { NoBikes } from "./no-bikes";
import { inOrder } from "./order";
import "./bikes.css";

const SEARCH_FROM = 6;

/** A long list is drawn as far as one looks, and a page further. */
const PAGE = 24;

export function Bikes() {
  const offer = useFirstOffer();
  const lines = useBikeLines();
  const bikes = offer === undefined ? undefined : lines;
  const [search, setSearch] = useState("");
  const sought = search.trim().toLocaleLowerCase();
  const ranked = useMemo(() => inOrder(bikes ?? []), [bikes]);
  const shown = ranked.filter((bike) => sought === "" || sayable(bike).includes(sought));
  return (
    <Page
      place="bikes"
      title={words.places.bikes}
      under={bikes && bikes.length > 0 ? <span class="figure bikes-count">{bikes.length}</span> : null}
      foot={
        runsWorkshop() ? (
          <div class="foot-act">
            <a class="button" href="/new">
              {words.bikes.newBike}
            </a>
          </div>
        ) : null
      }
    >
      {(bikes?.length ?? 0) >= SEARCH_FROM && (
        <TextField label={words.bikes.search} type="search" value={search} onChange={setSearch} hideLabel />
      )}
      {bikes === undefined ? <p class="quiet">{words.reading}</p> : null}
      {offer && bikes !== undefined && (bikes.length > 0 || runsWorkshop()) ? <FirstOffer /> : null}
      {bikes?.length === 0 ? <NoBikes /> : null}
      {sought !== "" && shown.length === 0 ? <p>{words.bikes.noneFound(search)}</p> : null}
      {shown.length > 0 ? <List key={sought} bikes={shown} /> : null}
    </Page>
  );
}

function List({ bikes }: { bikes: Listed[] }) {
  const [most, setMost] = useState(PAGE);
  const end = useRef<HTMLParagraphElement>(null);
  const more = bikes.length > most;
  useEffect(() => {
    if (!more || end.current === null) return undefined;
    const watching = new IntersectionObserver(
      (seen) => {
        if (seen.some((one) => one.isIntersecting)) setMost((now) => now + PAGE);
      },
      { rootMargin: "100% 0px" },
    );
    watching.observe(end.current);
    return () => watching.disconnect();
  }, [more, most]);
  return (
    <>
      <ul class="ruled bikes" aria-label={words.places.bikes}>
        {bikes.slice(0, most).map((bike) => (
          <BikeRow key={bike.subject} bike={bike} />
        ))}
      </ul>
      {more ? (
        <p ref={end} class="quiet">
          {words.bikes.more(bikes.length - most)}
        </p>
      ) : null}
    </>
  );
}

function BikeRow({ bike }: { bike: Listed }) {
  const { line } = bike;
  return (
    <li>
      <a class="bike-line" href={`/${bike.subject}`}>
        <span class="bike-name">{nameOfBike(bike)}</span>
        {/* How it stood before says nothing of how it stands: no mark until it is known. */}
        {line === null ? null : <Mark verdict={line.summary.standing.verdict} />}
        <span class="bike-rider">{[riderOf(bike), known(bike)?.use].filter(Boolean).join(" · ")}</span>
        <span class="bike-matter">{line === null ? words.reading : matter(line)}</span>
      </a>
    </li>
  );
}

function nameOfBike(bike: Listed): string {
  const summary = known(bike);
  return summary === undefined ? "…" : (summary.name ?? words.bikes.unnamed);
}

function riderOf(bike: Listed): string {
  const rider = known(bike)?.rider;
  return rider ? nameOf(rider) : "";
}

function sayable(bike: Listed): string {
  return `${nameOfBike(bike)} ${riderOf(bike)} ${known(bike)?.use ?? ""}`.toLocaleLowerCase();
}

/** What stops it; else what is due; else what is open; else when it was looked at. */
function matter({ summary, due }: BikeLine): string {
  const { standing } = summary;
  const stop = standing.reasons.find((reason) => reason.level === "stop");
  if (stop !== undefined) return said(stop.text);
  const now = due.find((one) => one.snoozed === null && one.level !== "coming");
  if (now !== undefined) return `${said(now.title)}: ${said(now.text)}`;
  const reason = standing.reasons[0];
  if (reason !== undefined) return said(reason.text);
  const coming = due.find((one) => one.snoozed === null);
  if (coming !== undefined) return `${said(coming.title)}: ${said(coming.text)}`;
  return standing.at === null ? "" : words.bikes.checked(dateOf(standing.at), nameOf(standing.by));
}
