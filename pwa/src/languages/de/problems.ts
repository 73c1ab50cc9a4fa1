/** What can go wrong between phone, server and files, in German. */

import type { ProblemWords } from "../../store/words";

export const problems: ProblemWords = {
  noWay: "Server gerade nicht erreichbar.",
  noNetwork: "Kein Netz.",
  brokeOff: "Die Verbindung brach mitten in der Antwort ab.",
  garbled: "Die Antwort des Servers ist abgeschnitten oder nicht zu verstehen.",
  tooMuch: "Was auf einmal gesendet wurde, ist dem Server zu viel.",
  waitALittle: "Der Server bittet, etwas zu warten.",
  ownTrouble: (status: number) => `Der Server hat selbst eine Störung (${status}).`,
  shutOut: "Dieses Telefon wurde aus der Werkstatt ausgesperrt. Was nicht gesendet ist, bleibt erhalten: als Datei sichern.",
  signedOut: "Dieses Telefon ist abgemeldet. Neu koppeln; nichts ist verloren.",
  forbidden: "Der Server erlaubt diesem Telefon das nicht.",
  newerServer:
    "Der Server spricht eine neuere Version. Die Aktualisierung dieser App nehmen, sobald sie angeboten wird; bis dahin bleibt alles hier.",
  olderServer: "Der Server spricht eine ältere Version und muss aktualisiert werden; bis dahin bleibt alles hier.",
  stranger: "Etwas anderes als der Server der Werkstatt hat geantwortet, vielleicht die Anmeldeseite eines Netzes.",
  declined: (status: number) => `Der Server hat es nicht angenommen (${status}).`,
  notAcknowledged:
    "Der Server antwortet, quittiert aber nicht, was dieses Telefon sendet. Die Warteschlange als Datei sichern.",
  otherChain:
    "Der Server hat unter dem Namen dieses Telefons einen anderen Eintrag. Die Warteschlange als Datei sichern und neu koppeln.",
  notPaired: "Dieses Telefon ist noch mit keiner Werkstatt gekoppelt, also lässt sich nichts festhalten.",
  notRefused: "Dieser Eintrag ist nicht mehr unter den abgelehnten: ansehen, was die Aufzeichnung jetzt zeigt.",
  badCode: "Das gilt nicht oder nicht mehr. Um einen neuen Code bitten.",
  tooManyTries: "Zu viele Versuche. Eine Minute warten und noch einmal versuchen.",
  pairingNeedsServer: "Koppeln braucht den Server, und der ist gerade nicht erreichbar.",
  table: {
    notText: "Das ist keine Texttabelle: Sie enthält Bytes, die in keinem Text stehen.",
    oneColumn: "Nur eine Spalte: Eine Tabelle hat Spalten, dazwischen Komma, Semikolon, Tabulator oder senkrechter Strich.",
    openQuote: (line: number) => `Ein Anführungszeichen ist geöffnet und nicht geschlossen, etwa in Zeile ${line}.`,
    nothingUnder: "Es gibt Überschriften und nichts darunter.",
  },
  ride: {
    notXml: "keine XML-Datei",
    notGpx: "keine GPX-Datei",
    noTrack: "kein Track in dieser Datei",
  },
};
