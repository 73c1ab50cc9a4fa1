/** What the headings of other people's tables mean, in every language the app speaks, whichever it speaks just now. */

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
  return START.find(([, pattern]) => pattern.test(plain(heading)))?.[0] ?? null;
}

export function partColumn(heading: string): PartColumn | null {
  return PARTS.find(([, pattern]) => pattern.test(plain(heading)))?.[0] ?? null;
}

/** Small letters without marks, a blank between words. */
function plain(heading: string): string {
  return heading
    .toLowerCase()
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .replaceAll(/[\s._-]+/g, " ")
    .trim();
}
