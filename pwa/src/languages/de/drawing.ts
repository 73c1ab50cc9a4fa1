/** On and about the bench's drawings, in German. */

import type { DrawingWords } from "../../drawing/words";
import { told } from "../saying";

const drawnTimes = (factor: number) => `${factor}-fach vergrößert gezeichnet`;

export const drawing: DrawingWords = {
  times: (factor: number) => `×${factor}`,
  drawn: (what: string, factor: number) => (factor === 1 ? `${what} maßstäblich` : `${what} gezeichnet ×${factor}`),

  frontEnd: (x: string | null, y: string | null) =>
    told(
      "Front von der Antriebsseite, maßstäblich: Steuerrohr, Spacer, Vorbau und Lenker, gemessen ab dem Tretlager.",
      x !== null && y !== null && `Lenker ${x} davor und ${y} darüber.`,
    ),
  transfer: (x: string | null, y: string | null, miss: string | null) =>
    told(
      "Front, maßstäblich: die Zielposition über der nächsten, die sich bauen lässt.",
      x !== null && y !== null && `Ziel ${x} vor und ${y} über dem Tretlager.`,
      miss !== null ? `Die nächste liegt ${miss} daneben.` : "Noch kein Aufbau berechnet.",
    ),
  saddle: (height: string | null, shift: string | null) =>
    told(
      "Sattel und Stütze von der Antriebsseite, maßstäblich, die alte Position dünn, die neue blau.",
      height !== null && `Neue Sattelhöhe ${height}.`,
      shift !== null && `Klemmung ${shift} entlang der Streben ab der Mitte.`,
    ),
  steering: (trail: string | null, gap: string | null) =>
    told(
      "Gabel und Vorderrad von der Antriebsseite, maßstäblich, die Lenkachse bis zum Boden gezeichnet.",
      trail !== null && `Nachlauf ${trail}.`,
      gap !== null && `Fußspitze bis Reifen ${gap}.`,
    ),
  trail: "Nachlauf",
  toe: "Fußspitze",
  tilt: (tilt: string | null, factor: number) =>
    told(
      "Das Rad vorher, dünn, und nachher, kräftig, um das Tretlager gedreht.",
      tilt !== null && `Neigung ${tilt}${factor === 1 ? "" : `, ${drawnTimes(factor)}`}.`,
    ),
  hose: (slack: string | null, side: string | null) =>
    told(
      "Lenker von oben, gerade und bis zu beiden Anschlägen eingeschlagen, mit der Leitung vom Anschluss bis zur Befestigung.",
      slack !== null &&
        (side === null ? `Nötig: ${slack} Spielraum.` : `Nötig: ${slack} Spielraum, am meisten bei Einschlag nach ${side}.`),
    ),
  left: "links",
  right: "rechts",
  front: "vorn",
  rear: "hinten",
  port: "Anschluss",
  needs: (slack: string) => `nötig ${slack}`,
  has: (slack: string) => `vorhanden ${slack}`,
  tie: "Befestigung",

  chainLine: (pitches: string | null, length: string | null) =>
    told(
      "Größtes Kettenblatt und größtes Ritzel, maßstäblich, mit der Kette um beide.",
      pitches !== null && `${pitches} Glieder${length === null ? "" : `, ${length}`}.`,
    ),
  pitches: (count: string) => `${count} Glieder`,
  chainWear: (elongation: string | null, limit: string | null, factor: number) =>
    told(
      "Eine neue Kette über der verschlissenen, ab demselben Bolzen.",
      elongation !== null && `Längung ${elongation}, ${drawnTimes(factor)}${limit === null ? "" : `, Grenze ${limit}`}.`,
    ),
  newChain: "neu",
  wornChain: (factor: number) => `diese Kette, Verschleiß ×${factor}`,
  limit: "Grenze",
  ladder: (rings: string, low: string, high: string) =>
    told(
      `Gänge auf einer Skala, eine Linie je Kettenblatt (${rings}), gleiche Sprünge gleich weit auseinander.`,
      low !== "" && `Von ${low} bis ${high} je Umdrehung.`,
    ),
  ladderNothing: "Eine Skala der Gänge: Kettenblätter und Ritzel angeben.",
  teeth: (count: number) => (count === 1 ? "1 Zahn" : `${count} Zähne`),
  aTurn: "Meter je Kurbelumdrehung",
  climb: (gradient: string | null, speed: string | null, cadence: string | null, least: string | null) =>
    told(
      "Die Steigung, maßstäblich, und die Trittfrequenz auf einer Skala.",
      gradient !== null && `Steigung ${gradient}.`,
      speed !== null && `Geschwindigkeit ${speed}.`,
      cadence !== null && `Trittfrequenz ${cadence}${least === null ? "" : `, gewünscht mindestens ${least}`}.`,
    ),
  least: (value: string) => `min. ${value}`,
  wantedCog: (cog: string) => `gewünschtes Ritzel ${cog}`,
  lowestGear: (ring: string, cog: string) => `${ring} × ${cog} Zähne`,
  hanger: (toe: string | null, camber: string | null) =>
    told(
      "Felge von der Antriebsseite mit den vier Abständen der Lehre.",
      toe !== null && camber !== null && `Schaltauge von oben gesehen um ${toe} verdreht, von hinten gesehen um ${camber}.`,
    ),
  spread: (spread: string, tolerance: string | null) =>
    tolerance === null ? `Streuung ${spread}` : `Streuung ${spread} von ${tolerance}`,
  leanDrawn: (factor: number) => (factor === 1 ? "maßstäblich" : `Schräge gezeichnet ×${factor}`),
  fromAbove: "von oben",
  fromBehind: "von hinten",

  rollout: (diameter: string | null, round: string | null, measured: string | null) =>
    told(
      "Das Laufrad an beiden Enden einer Umdrehung am Boden, maßstäblich.",
      diameter !== null && `Durchmesser ${diameter}.`,
      round !== null && `Umfang ${round}.`,
      measured !== null && `Gemessen ${measured}.`,
    ),
  measured: "gemessen",
  rimFit: (tyre: string | null, rim: string | null, left: string | null) =>
    told(
      "Reifen auf seiner Felge im Schnitt, zwischen den beiden Seiten des Rahmens, maßstäblich.",
      tyre !== null && `Reifen ${tyre}`,
      rim !== null && `auf einer Felge mit ${rim} innen.`,
      left !== null && `Freiraum je Seite ${left}.`,
    ),
  eachSide: (room: string) => `${room} je Seite`,
  tyreDrop: (drop: string | null, target: string | null) =>
    told(
      "Reifen im Schnitt, unbelastet dünn, belastet kräftig, maßstäblich.",
      drop !== null && `Er federt um ${drop} seiner Höhe ein${target === null ? "" : `; gewünscht ${target}`}.`,
    ),
  wanted: "gewünscht",
  pressures: (what: string) => `Druck auf einer Skala. ${what}`,
  cap: "Obergrenze",
  before: "jetzt",
  onTheDay: "am Tag selbst",
  toSet: "einstellen",
  start: "Start",
  after: "danach",
  topUp: "nachfüllen",
  toPutIn: (volume: string) => `${volume} einfüllen`,
  sealant: (volume: string | null, left: string | null) =>
    told(
      "Tage seit der letzten Dichtmilch auf einer Skala, mit dem Tag zum Nachfüllen.",
      volume !== null && `${volume} einfüllen.`,
      left !== null && `Nachfüllen in ${left}.`,
    ),
  nothingYet: "Noch nichts berechnet.",
  spoke: (length: string | null, crosses: string | null) =>
    told(
      "Nabenflansch und Felge von der Seite, maßstäblich, eine Speiche blau.",
      crosses !== null && `Kreuzungen ${crosses}.`,
      length !== null && `Speiche ${length}.`,
    ),
  string: (length: string | null, tone: string | null, tension: string | null) =>
    told(
      "Die Speiche als Saite, die zwischen ihren Enden klingt.",
      length !== null && `Freie Länge ${length}.`,
      tone !== null && `Ton ${tone}.`,
      tension !== null && `Spannung ${tension}.`,
    ),
  rose: (left: string | null, right: string | null, off: number) =>
    told(
      "Speichenspannungen rund um das Laufrad, links und rechts, jede mit ihrem Mittel und dem Band von 20 % darum.",
      left !== null && `Mittel links ${left}.`,
      right !== null && `Mittel rechts ${right}.`,
      off > 0 && `${off} außerhalb des Bands.`,
    ),
  bracing: (angle: string) => `Stützwinkel ${angle}`,
  mean: "Mittel",

  adaptor: (setting: string | null, joint: string | null) =>
    told(
      "Schlüssel mit Adapter von oben, maßstäblich.",
      joint !== null && `An der Verbindung gewünscht ${joint}.`,
      setting !== null && `Schlüssel auf ${setting} einstellen.`,
    ),
  setTo: (value: string) => `einstellen ${value}`,
  joint: "Verbindung",
  torqueCheck: (applied: string | null, low: string | null, high: string | null) =>
    told(
      "Drehmoment auf einer Skala mit dem erlaubten Band.",
      applied !== null && `Aufgebracht ${applied}.`,
      low !== null && high !== null && `Erlaubt ${low} bis ${high}.`,
    ),
  lowest: (value: string) => `min. ${value}`,
  highest: (value: string) => `max. ${value}`,
  proof: (used: string | null) =>
    told(
      "Ausnutzung der Prüfkraft der Schraube auf einer Skala, Vorsicht ab 75 %, Halt ab 100 %.",
      used !== null && `Ausgenutzt ${used}.`,
    ),
  clamp: (force: string) => `Klemmkraft ${force}`,
  proofUse: (value: string) => `${value} der Prüfkraft`,

  weight: (total: string | null, goal: string | null, sd: string | null) =>
    told(
      "Gewicht der Teile, aneinandergelegt auf einer Skala.",
      total !== null && `Summe ${total}${sd === null ? "" : `, etwa ± ${sd}`}.`,
      goal !== null && `Ziel ${goal}.`,
    ),
  total: "Summe",
  goal: "Ziel",
  base: "Basis",
  toSpare: (mass: string) => `${mass} übrig`,
  over: (mass: string) => `${mass} zu viel`,
  missing: (slots: string) => `fehlt: ${slots}`,
  dashedClaimed: "Gestrichelt: angegeben, nicht gewogen.",
  swaps: (total: string | null, goal: string | null, cost: string | null) =>
    told(
      "Das Gewicht mit den gewählten Teilen, aneinandergelegt auf einer Skala.",
      total !== null && `Summe ${total}.`,
      goal !== null && `Ziel ${goal}.`,
      cost !== null && `Kosten ${cost}.`,
    ),
  forecast: (limit: string | null, at: string | null, from: string | null, to: string | null) =>
    told(
      "Messwerte, die Gerade hindurch und die Grenze.",
      limit !== null && `Grenze ${limit}.`,
      at !== null && `Erreicht bei ${at}`,
      from !== null && to !== null && `zwischen ${from} und ${to}.`,
    ),
  now: "jetzt",
  stopping: (distance: string | null, reference: string | null) =>
    told(
      "Anhalteweg auf einer Skala.",
      distance !== null && `Steht nach ${distance}.`,
      reference !== null && `Prüfstrecke ${reference}.`,
    ),
  stoppedIn: "steht nach",
  reference: "Prüfwert",
  atTestSpeed: "bei Prüfgeschwindigkeit",

  how: {
    title: "So wird gemessen",
    drawn: (label: string) => `Wo „${label}“ gemessen wird: Die Stelle ist blau gezeichnet.`,
    texts: {
      "saddle-tilt": "Rad waagrecht. Ein gerades Brett auf den Sattel legen, die Lehre aufs Brett; Nase hoch zählt +.",
      "bar-ahead": "Rad waagrecht: Lote durch Tretlagermitte und Lenkermitte, der Abstand zwischen ihnen.",
      "bar-above": "Rad waagrecht: Höhe der Lenkermitte über dem Boden, abzüglich der Höhe der Tretlagermitte.",
      "bar-tilt":
        "Rad waagrecht, Lehre am geraden Ende des Unterlenkers. Immer dieselbe Stelle, sonst sagen zwei Werte nichts.",
      crank: "Tretlagermitte bis Mitte der Pedalachse. Meist steht die Länge hinten auf der Kurbel.",
      "lever-reach": "Waagrecht vom Lenker bis vorn an den Hebel, wo der Finger liegt. Links und rechts an derselben Stelle.",
      "lever-height": "Rad waagrecht, Lenker gerade: vom Boden bis oben auf den Griff. Links und rechts an derselben Stelle.",
      "lever-angle": "Rad waagrecht, Lehre oben auf den Griff. Links und rechts gleich angelegt.",
      rotor: "Bügelmessschraube auf der Bremsspur, an vier Stellen; die dünnste zählt. Das Mindestmaß steht auf der Scheibe.",
      pad: "Rad heraus, den Belag mit dem Messschieber an der dünnsten Stelle. Mit oder ohne Träger: wie der Hersteller es angibt.",
      chain: "Mit der Kettenlehre oder einem Maßstab über 24 Glieder unter Zug: wie viel länger als neu, in Prozent.",
      tread: "Tiefe einer Rille oder der Verschleißmarke in der Reifenmitte, mit dem Tiefenmaß.",
      pressure: "Reifen kalt, Prüfer gerade aufs Ventil. Ablesen, wenn er sitzt, nicht während es zischt.",
    },
  },
};
