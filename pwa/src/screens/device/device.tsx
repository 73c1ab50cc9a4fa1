/** This device: what waits to be sent and what was refused, its storage, units, theme, people, version. */

import { useEffect } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { askToPersist, lookAtStorage, offlineReady, storage, version } from "../../device";
import { chooseLanguage, LANGUAGES, language } from "../../languages/chosen";
import { THEMES, theme } from "../../look/theme";
import { identity, people } from "../../store/record";
import { chooseUnit, formatNumber, unitOf, unitsFor } from "../../units";
import table from "../../units.json";
import { words } from "../../words";
import { HomeScreen } from "../shell/home-screen";
import { Page } from "../shell/page";
import "./device.css";
import { Sending } from "./sending";
import { Team } from "./team";
import { LETS_IN } from "./team-words";
import { Update } from "./update";

export function Device() {
  useEffect(() => void lookAtStorage(), []);
  return (
    <Page place="device" title={words.places.device}>
      <Update />
      <Who />
      <Sending />
      <Theme />
      <Language />
      <Units />
      <Keeping />
      {mayLetIn() ? <Team /> : <People />}
      <p class="quiet figure">Pinchbolt {version}</p>
    </Page>
  );
}

function Who() {
  const who = identity.value;
  if (who === null) {
    return (
      <section class="part">
        <h2>{words.device.whose}</h2>
        <p>{words.bikes.notPaired}</p>
        <a class="button" href="/pair">
          {words.pair.title}
        </a>
      </section>
    );
  }
  return (
    <section class="part">
      <h2>{words.device.whose}</h2>
      <dl class="told-rows">
        <Row term={words.device.person} told={`${who.person.name}, ${words.roles[who.person.role]}`} />
        <Row term={words.device.deviceName} told={who.device.name} />
        <Row term={words.device.workshop} told={who.workshop} />
      </dl>
    </section>
  );
}

export function Row({ term, told }: { term: string; told: string }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>{told}</dd>
    </div>
  );
}

function Theme() {
  return (
    <section class="part">
      <h2>{words.device.theme}</h2>
      <Choice
        label={words.device.theme}
        hideLabel
        options={THEMES.map((one) => ({ value: one, label: words.themes[one] }))}
        value={theme.value}
        onChange={(chosen) => {
          theme.value = chosen;
        }}
      />
    </section>
  );
}

function Language() {
  if (LANGUAGES.length < 2) return null;
  return (
    <section class="part">
      <h2>{words.device.language}</h2>
      <Choice
        label={words.device.language}
        hideLabel
        options={LANGUAGES.map(({ code, name }) => ({ value: code, label: name }))}
        value={language}
        onChange={(code) => {
          if (code !== language) chooseLanguage(code);
        }}
      />
      {language === "en" ? null : <p class="quiet">{words.device.languageHelp}</p>}
    </section>
  );
}

function Units() {
  const bases = Object.keys(table).filter((base) => unitsFor(base).length > 1);
  return (
    <section class="part">
      <h2>{words.device.units}</h2>
      <p class="quiet">{words.device.unitsHelp}</p>
      <div class="units">
        {bases.map((base) => (
          <Choice
            key={base}
            label={words.quantities[base] ?? base}
            options={unitsFor(base).map((unit) => ({ value: unit, label: unit }))}
            value={unitOf(base)}
            onChange={(unit) => chooseUnit(base, unit)}
          />
        ))}
      </div>
    </section>
  );
}

function Keeping() {
  const { persisted, used, room } = storage.value;
  return (
    <section class="part">
      <h2>{words.device.keeping}</h2>
      <dl class="told-rows">
        <Row term={words.device.opensOffline} told={offlineReady.value ? words.yes : words.device.notYet} />
        <Row
          term={words.device.safe}
          told={persisted === null ? words.device.cannotSay : persisted ? words.yes : words.device.mayBeCleared}
        />
        {used === null ? null : (
          <Row term={words.device.used} told={megabytes(used) + (room === null ? "" : words.device.of(megabytes(room)))} />
        )}
      </dl>
      <div class="buttons">
        {persisted === false ? (
          <button type="button" class="button small" onClick={() => void askToPersist()}>
            {words.device.keepIt}
          </button>
        ) : null}
        <HomeScreen />
      </div>
    </section>
  );
}

function megabytes(bytes: number): string {
  const mega = bytes / 1_000_000;
  return mega >= 1000 ? `${formatNumber(mega / 1000, 1)} GB` : `${formatNumber(mega, 1)} MB`;
}

function mayLetIn(): boolean {
  const who = identity.value;
  return who !== null && LETS_IN[who.person.role].length > 0;
}

function People() {
  if (people.value.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.device.people}</h2>
      <details class="people">
        <summary>{words.device.peopleCount(people.value.length)}</summary>
        <dl class="told-rows">
          {people.value.map((one) => (
            <Row key={one.id} term={one.name} told={words.roles[one.role]} />
          ))}
        </dl>
      </details>
    </section>
  );
}
