/** All bikes, those that must not be ridden first: name, rider, how it stands, and the one line that matters. */

import { useState } from "preact/hooks";
import { Mark } from "../../controls/mark";
import { TextField } from "../../controls/text-field";
import { identity } from "../../store/record";
import { syncState } from "../../store/sync";
import { words } from "../../words";
import { type BikeNow, useBikes } from "../loading";
import { Page } from "../shell/page";
import { dateOf, nameOf } from "../when";
import "./bikes.css";

const SEARCH_FROM = 6;

export function Bikes() {
  const bikes = useBikes();
  const [search, setSearch] = useState("");
  const sought = search.trim().toLocaleLowerCase();
  const shown = (bikes ?? [])
    .filter(
      (bike) =>
        sought === "" ||
        `${nameOfBike(bike)} ${riderOf(bike)} ${bike.state.described.use ?? ""}`.toLocaleLowerCase().includes(sought),
    )
    .sort((a, b) => rank(a) - rank(b) || (b.state.last_at ?? "").localeCompare(a.state.last_at ?? ""));
  return (
    <Page
      place="bikes"
      title={words.places.bikes}
      under={bikes && bikes.length > 0 ? <span class="figure bikes-count">{bikes.length}</span> : null}
      foot={
        identity.value === null ? null : (
          <div class="foot-act">
            <a class="button" href="/new">
              {words.bikes.newBike}
            </a>
          </div>
        )
      }
    >
      {(bikes?.length ?? 0) >= SEARCH_FROM && (
        <TextField label={words.bikes.search} type="search" value={search} onChange={setSearch} hideLabel />
      )}
      {bikes === undefined ? <p class="quiet">{words.reading}</p> : null}
      {bikes?.length === 0 ? <NoBikes /> : null}
      {sought !== "" && shown.length === 0 ? <p>{words.bikes.noneFound(search)}</p> : null}
      <ul class="ruled bikes" aria-label={words.places.bikes}>
        {shown.map((bike) => (
          <li key={bike.state.subject}>
            <a class="bike-line" href={`/${bike.state.subject}`}>
              <span class="bike-name">{nameOfBike(bike)}</span>
              <Mark verdict={bike.state.standing.verdict} />
              <span class="bike-rider">{[riderOf(bike), bike.state.described.use].filter(Boolean).join(" · ")}</span>
              <span class="bike-matter">{matter(bike)}</span>
            </a>
          </li>
        ))}
      </ul>
    </Page>
  );
}

function NoBikes() {
  if (identity.value === null) {
    return (
      <div class="empty">
        <p>{words.bikes.notPaired}</p>
        <p class="quiet">{words.bikes.notPairedHow}</p>
        <div class="buttons">
          <a class="button" href="/pair">
            {words.pair.title}
          </a>
          <a class="button" href="/bench">
            {words.places.bench}
          </a>
        </div>
      </div>
    );
  }
  return <p class="empty">{syncState.value.state === "sending" ? words.bikes.fetching : words.bikes.none}</p>;
}

function nameOfBike(bike: BikeNow): string {
  return bike.state.described.name ?? words.bikes.unnamed;
}

function riderOf(bike: BikeNow): string {
  return bike.state.described.rider ? nameOf(bike.state.described.rider) : "";
}

/** What must not be ridden comes first, then what was last worked on. */
function rank(bike: BikeNow): number {
  return bike.state.standing.verdict === "not-fit" ? 0 : 1;
}

/** What stops it; else what is due; else what is open; else when it was looked at. */
function matter(bike: BikeNow): string {
  const { standing, faults } = bike.state;
  const stop = standing.reasons.find((reason) => reason.level === "stop");
  if (stop !== undefined) return stop.text;
  const fault = faults[0];
  if (fault !== undefined) return words.bikes.openFault(fault.what);
  const due = bike.due.find((one) => one.snoozed === null && one.level !== "coming");
  if (due !== undefined) return `${due.title}: ${due.text}`;
  const reason = standing.reasons[0];
  if (reason !== undefined) return reason.text;
  const coming = bike.due.find((one) => one.snoozed === null);
  if (coming !== undefined) return `${coming.title}: ${coming.text}`;
  return standing.at === null ? "" : words.bikes.checked(dateOf(standing.at), nameOf(standing.by));
}
