/** What the people's section says, in German. */

import type { TeamWords } from "../../screens/device/team-words";

const unsent = (count: number) => (count === 1 ? "1 Eintrag nicht gesendet" : `${count} Einträge nicht gesendet`);

export const team: TeamWords = {
  title: "Leute und Telefone",
  needsServer: "Die Liste der Telefone liegt auf dem Server, und der ist gerade nicht erreichbar.",
  seen: (when: string) => `zuletzt gesehen ${when}`,
  unsent,
  thisOne: "dieses Telefon",
  states: { paired: "", revoked: "ausgesperrt", unpaired: "nicht zugelassen" },
  until: (when: string) => `bis ${when}`,
  shutOut: "Aussperren",
  lost: "Telefon verloren",
  sure: (name: string) =>
    `${name} sofort aussperren? Was nicht gesendet ist, bleibt darauf und lässt sich dort als Datei sichern.`,
  sureLost: (name: string) =>
    `${name} sofort aussperren? Wer es findet, kann nichts Neues lesen, und die Aufzeichnung darauf verschwindet bei der nächsten Anfrage.`,
  yes: "Ja, aussperren",
  no: "So lassen",
  done: (name: string) => `${name} ist ausgesperrt.`,
  doneUnsent: (name: string, count: number) =>
    `${name} ist ausgesperrt. Letzte Meldung von dort: ${unsent(count)}. Taucht es auf, darauf als Datei sichern oder neu festhalten.`,
  letIn: "Jemanden zulassen",
  newPhone: "Weiteres Telefon",
  name: "Name",
  role: "Rolle",
  bikes: "Räder dieses Fahrers",
  bikesHelp: "Ein Fahrer sieht nur die eigenen Räder.",
  event: "Veranstaltung",
  allEvents: "Alle Veranstaltungen",
  checkerHelp: "Dieser Prüfer sieht die Startliste jeder Veranstaltung und die Räder darauf.",
  eventHelp: "Der Prüfer sieht die Startliste dieser Veranstaltung und die Räder darauf und darf dort Startnummern ändern.",
  sees: (event: string) => `sieht nur ${event}`,
  good: "Der Code gilt",
  goods: { "15": "15 Minuten", "60": "1 Stunde", "1440": "1 Tag" },
  access: "Das Telefon ist zugelassen",
  accesses: { "0": "auf Dauer", "3": "3 Tage", "30": "30 Tage" },
  make: "Code erzeugen",
  scan: (who: string) => `${who} öffnet dies mit der Kamera des Telefons oder tippt den Code. Er gilt einmal.`,
  qr: "QR-Code des Links zum Koppeln",
  copy: "Link kopieren",
  finish: "Fertig",
  byPassphrase: {
    offer: "Inhaber mit Passphrase",
    person: "Name des Inhabers",
    passphrase: "Passphrase",
  },
  passkey: {
    title: "Passkey",
    help: "Lässt den Inhaber an einem neuen Gerät ohne Code zu: mit Finger, Gesicht oder PIN, wie das Gerät es verlangt. Auf dem Server liegt nichts Geheimes.",
    make: "Passkey anlegen",
    made: "Der Passkey ist behalten. An einem neuen Gerät auf dem Blatt zum Koppeln wählen.",
    none: "Kein Passkey gegeben. Nichts hat sich geändert.",
    offer: "Inhaber mit Passkey",
  },
};
