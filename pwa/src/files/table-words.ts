/**
 * What the words in other people's tables mean: the headings in every language the app speaks, whichever it speaks just now; the
 * cells in English, or as the app says it to this person.
 */

/** Capitals, and marks over letters, make no difference. */
const plain = (text: string) => text.trim().toLowerCase().normalize("NFD").replaceAll(/\p{M}/gu, "");

/** A blank between words, whatever stood there. */
const apart = (heading: string) => plain(heading.replaceAll(/[\s._-]+/g, " "));

export type StartColumn = "plate" | "name" | "bike";
export type PartColumn = "slot" | "name" | "weighed" | "claimed" | "price" | "count";

// Each: English; German; French; Spanish. Written without the marks over letters.
const START: [StartColumn, RegExp][] = [
  [
    "plate",
    /^(plate|bib|number|nr|#|(plate|start(er)?) (no|number)|no|n°|startnummer|start ?nr|nummer|(numero|n°|no) de (dossard|plaque|dorsal|placa|salida)|numero|dossard|plaque|dorsal|placa)$/,
  ],
  [
    "name",
    /^((full |first |last )?name|rider|starter|surname|vorname|nachname|familienname|fahrer(in)?|teilnehmer(in)?|nom|prenom|nom et prenom|coureur|cycliste|participante?|nombre|apellidos?|nombre y apellidos|corredora?|ciclista)$/,
  ],
  ["bike", /^(bike|bicycle|rad|fahrrad|velo|bici|bicicleta)$/],
];

// In this order: what is weighed is named by what it is, too.
const PARTS: [PartColumn, RegExp][] = [
  ["slot", /^(slot|place|position|where|platz|einbauort|stelle|emplacement|lugar|posicion|ubicacion)$/],
  [
    "name",
    /^(name|part|component|item|description|teil|bauteil|komponente|bezeichnung|artikel|nom|piece|composant|designation|nombre|pieza|componente|descripcion)$/,
  ],
  [
    "weighed",
    /weighed|actual|scale|measured.*(g|mass|weight)|gewogen|ist ?gewicht|waage|pese|balance|(poids|masse) reel|pesad[oa]|bascula|(peso|masa) real/,
  ],
  ["claimed", /claimed|weight|mass|gewicht|masse|angabe|poids|annonce|peso|masa|anunciad[oa]/],
  ["price", /price|cost|preis|kosten|prix|cout|precio|coste/],
  ["count", /count|quantity|qty|pieces|anzahl|stuck|menge|quantite|qte|cantidad|unidades/],
];

export function startColumn(heading: string): StartColumn | null {
  return START.find(([, pattern]) => pattern.test(apart(heading)))?.[0] ?? null;
}

export function partColumn(heading: string): PartColumn | null {
  return PARTS.find(([, pattern]) => pattern.test(apart(heading)))?.[0] ?? null;
}

const FLAGS: Record<string, boolean> = {
  yes: true,
  true: true,
  y: true,
  "1": true,
  x: true,
  no: false,
  false: false,
  n: false,
  "0": false,
};

/** Yes or no; undefined where it says neither. `yes` and `no` are the person's own words for them. */
export function flagIn(cell: string, yes: string, no: string): boolean | undefined {
  const word = plain(cell);
  if (word === plain(yes)) return true;
  return word === plain(no) ? false : FLAGS[word];
}

/** The word the rules know, where the cell is that word or `said` makes it what the cell says; else the cell as it stands. */
export function knownIn(cell: string, known: readonly string[] | undefined, said: (word: string) => string): string {
  const word = plain(cell);
  return known?.find((one) => plain(one) === word || plain(said(one)) === word) ?? cell;
}
