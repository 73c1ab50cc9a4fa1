/** Every word on and about the bench's drawings, in Spanish. */

import type { DrawingWords } from "../../drawing/words";
import { told } from "../saying";

export const drawing: DrawingWords = {
  times: (factor) => `×${factor}`,
  drawn: (what, factor) => (factor === 1 ? `${what} a escala` : `${what} dibujado ×${factor}`),

  frontEnd: (x, y) =>
    told(
      "Tren delantero a escala desde el lado de la transmisión: pipa de dirección, espaciadores, potencia y manillar, medido desde el eje de pedalier.",
      x !== null && y !== null && `Manillar ${x} por delante y ${y} por encima.`,
    ),
  transfer: (x, y, miss) =>
    told(
      "Tren delantero a escala: la posición objetivo sobre la más próxima que se puede montar.",
      x !== null && y !== null && `Objetivo ${x} por delante del eje de pedalier y ${y} por encima.`,
      miss !== null ? `La más próxima queda a ${miss}.` : "Aún no se ha calculado ningún montaje.",
    ),
  saddle: (height, shift) =>
    told(
      "Sillín y tija a escala desde el lado de la transmisión, la posición vieja en fino, la nueva en azul.",
      height !== null && `Nueva altura de sillín ${height}.`,
      shift !== null && `Abrazadera a ${shift} del centro de los raíles.`,
    ),
  steering: (trail, gap) =>
    told(
      "Horquilla y rueda delantera a escala desde el lado de la transmisión, con el eje de dirección prolongado hasta el suelo.",
      trail !== null && `Avance ${trail}.`,
      gap !== null && `De la puntera del pie a la cubierta ${gap}.`,
    ),
  trail: "avance",
  toe: "pie",
  tilt: (tilt, factor) =>
    told(
      "La bici antes, en fino, y después, en grueso, girada en torno al eje de pedalier.",
      tilt !== null && `Inclinación ${tilt}${factor === 1 ? "" : `, dibujada ${factor} veces más grande`}.`,
    ),
  hose: (slack, side) =>
    told(
      "Manillar desde arriba, recto y girado a ambos topes, con la línea del orificio a la brida.",
      slack !== null &&
        (side === null ? `Necesita ${slack} de sobrante.` : `Necesita ${slack} de sobrante, lo máximo al girar a la ${side}.`),
    ),
  left: "izquierda",
  right: "derecha",
  front: "delante",
  rear: "detrás",
  port: "orificio",
  needs: (slack) => `necesita ${slack}`,
  has: (slack) => `tiene ${slack}`,
  tie: "brida",

  chainLine: (pitches, length) =>
    told(
      "El plato más grande y el piñón más grande a escala, con la cadena alrededor de ambos.",
      pitches !== null && `${pitches} pasos${length === null ? "" : `, ${length}`}.`,
    ),
  pitches: (count) => `${count} pasos`,
  chainWear: (elongation, limit, factor) =>
    told(
      "Una cadena nueva sobre la gastada, desde el mismo pasador.",
      elongation !== null &&
        `Alargamiento ${elongation}, dibujado ${factor} veces más grande${limit === null ? "" : `, límite ${limit}`}.`,
    ),
  newChain: "nueva",
  wornChain: (factor) => `esta cadena, desgaste ×${factor}`,
  limit: "límite",
  ladder: (rings, low, high) =>
    told(
      `Desarrollos en una escalera graduada, una línea por plato (${rings}), pasos iguales a distancias iguales.`,
      low !== "" && `De ${low} a ${high} por vuelta.`,
    ),
  ladderNothing: "Una escalera de desarrollos: dé platos y piñones.",
  teeth: (count) => `${count} dientes`,
  aTurn: "metros por vuelta de bielas",
  climb: (gradient, speed, cadence, least) =>
    told(
      "La cuesta a escala y la cadencia en una escala graduada.",
      gradient !== null && `Pendiente ${gradient}.`,
      speed !== null && `Velocidad ${speed}.`,
      cadence !== null && `Cadencia ${cadence}${least === null ? "" : `, se pide al menos ${least}`}.`,
    ),
  least: (value) => `mínimo ${value}`,
  wantedCog: (cog) => `piñón pedido ${cog}`,
  lowestGear: (ring, cog) => `${ring} × ${cog} dientes`,
  hanger: (toe, camber) =>
    told(
      "Llanta desde el lado de la transmisión con las cuatro separaciones del calibre.",
      toe !== null && camber !== null && `Patilla girada ${toe} vista desde arriba y ${camber} vista desde atrás.`,
    ),
  spread: (spread, tolerance) => (tolerance === null ? `dispersión ${spread}` : `dispersión ${spread} de ${tolerance}`),
  leanDrawn: (factor) => (factor === 1 ? "a escala" : `inclinación dibujada ×${factor}`),
  fromAbove: "desde arriba",
  fromBehind: "desde atrás",

  rollout: (diameter, round, measured) =>
    told(
      "La rueda en ambos extremos de una vuelta sobre el suelo, a escala.",
      diameter !== null && `Diámetro ${diameter}.`,
      round !== null && `Perímetro ${round}.`,
      measured !== null && `Medido ${measured}.`,
    ),
  measured: "medido",
  rimFit: (tyre, rim, left) =>
    told(
      "Cubierta en su llanta en sección, entre los dos lados del cuadro, a escala.",
      tyre !== null && `Cubierta ${tyre}`,
      rim !== null && `en llanta de ${rim} interior.`,
      left !== null && `Espacio a cada lado ${left}.`,
    ),
  eachSide: (room) => `${room} a cada lado`,
  tyreDrop: (drop, target) =>
    told(
      "Cubierta en sección, sin carga en fino, con carga en grueso, a escala.",
      drop !== null && `Baja ${drop} de su altura${target === null ? "" : `; se pide ${target}`}.`,
    ),
  wanted: "pedido",
  pressures: (what) => `Presión en una escala graduada. ${what}`,
  cap: "tope",
  before: "ahora",
  onTheDay: "ese día",
  toSet: "poner",
  start: "inicio",
  after: "después",
  topUp: "rellenar",
  toPutIn: (volume) => `añadir ${volume}`,
  sealant: (volume, left) =>
    told(
      "Días desde el último sellante en una escala graduada, con el día de rellenar.",
      volume !== null && `Añadir ${volume}.`,
      left !== null && `Rellenar en ${left}.`,
    ),
  nothingYet: "Aún no se ha calculado nada.",
  spoke: (length, crosses) =>
    told(
      "Ala del buje y llanta de lado a escala, un radio en azul.",
      crosses !== null && `Cruces ${crosses}.`,
      length !== null && `Radio ${length}.`,
    ),
  string: (length, tone, tension) =>
    told(
      "El radio como una cuerda que suena entre sus extremos.",
      length !== null && `Longitud libre ${length}.`,
      tone !== null && `Tono ${tone}.`,
      tension !== null && `Tensión ${tension}.`,
    ),
  rose: (left, right, off) =>
    told(
      "Tensiones de los radios alrededor de la rueda, izquierda y derecha, cada lado con su media y la banda del 20 % en torno a ella.",
      left !== null && `Media izquierda ${left}.`,
      right !== null && `Media derecha ${right}.`,
      off > 0 && `${off} fuera de la banda.`,
    ),
  bracing: (angle) => `apertura ${angle}`,
  mean: "media",

  adaptor: (setting, joint) =>
    told(
      "Llave con su adaptador desde arriba, a escala.",
      joint !== null && `Pedido en la unión ${joint}.`,
      setting !== null && `Ponga la llave a ${setting}.`,
    ),
  setTo: (value) => `poner ${value}`,
  joint: "unión",
  torqueCheck: (applied, low, high) =>
    told(
      "Par de apriete en una escala graduada con la banda admitida.",
      applied !== null && `Aplicado ${applied}.`,
      low !== null && high !== null && `Admitido de ${low} a ${high}.`,
    ),
  lowest: (value) => `mín. ${value}`,
  highest: (value) => `máx. ${value}`,
  proof: (use) =>
    told(
      "Uso de la carga de prueba del tornillo en una escala graduada, cuidado desde el 75 %, alto desde el 100 %.",
      use !== null && `Usado ${use}.`,
    ),
  clamp: (force) => `fuerza de apriete ${force}`,
  proofUse: (value) => `${value} de la carga de prueba`,

  weight: (total, goal, sd) =>
    told(
      "Peso de las piezas puestas una tras otra en una escala graduada.",
      total !== null && `Total ${total}${sd === null ? "" : `, ${sd} arriba o abajo`}.`,
      goal !== null && `Objetivo ${goal}.`,
    ),
  total: "total",
  goal: "objetivo",
  base: "base",
  toSpare: (mass) => `${mass} de margen`,
  over: (mass) => `${mass} de más`,
  missing: (slots) => `falta: ${slots}`,
  dashedClaimed: "A trazos: declarado, sin pesar.",
  swaps: (total, goal, cost) =>
    told(
      "El peso con las piezas elegidas, puestas una tras otra en una escala graduada.",
      total !== null && `Total ${total}.`,
      goal !== null && `Objetivo ${goal}.`,
      cost !== null && `Coste ${cost}.`,
    ),
  forecast: (limit, at, from, to) =>
    told(
      "Lecturas, la recta que pasa por ellas y el límite.",
      limit !== null && `Límite ${limit}.`,
      at !== null && `Se alcanza a ${at}`,
      from !== null && to !== null && `entre ${from} y ${to}.`,
    ),
  now: "ahora",
  stopping: (distance, reference) =>
    told(
      "Distancia de frenado en una escala graduada.",
      distance !== null && `Se detiene en ${distance}.`,
      reference !== null && `Distancia de ensayo ${reference}.`,
    ),
  stoppedIn: "se detiene en",
  reference: "ensayo",
  atTestSpeed: "a velocidad de ensayo",

  how: {
    title: "Cómo se mide",
    drawn: (label: string) => `Dónde se mide «${label}»: el lugar está dibujado en azul.`,
    texts: {
      "saddle-tilt":
        "Bici a nivel. Pon una tabla recta sobre el sillín y el medidor sobre la tabla; punta hacia arriba cuenta +.",
      "bar-ahead": "Bici a nivel: plomadas por el centro del pedalier y el centro del manillar, la distancia entre ellas.",
      "bar-above": "Bici a nivel: altura del centro del manillar desde el suelo, menos la del centro del pedalier.",
      "bar-tilt":
        "Bici a nivel, medidor a lo largo del extremo recto de la curva. Siempre en el mismo sitio, o dos lecturas no dicen nada.",
      crank: "Del centro del pedalier al centro del eje del pedal. Suele estar marcado detrás de la biela.",
      "lever-reach":
        "En horizontal, del manillar al frente de la maneta, donde apoya el dedo. Izquierda y derecha en el mismo sitio.",
      "lever-height":
        "Bici a nivel, manillar recto: del suelo a lo alto de la goma de la maneta. Izquierda y derecha en el mismo sitio.",
      "lever-angle": "Bici a nivel, medidor a lo largo de la goma de la maneta. Izquierda y derecha de la misma manera.",
      rotor:
        "Micrómetro en la pista de frenado, en cuatro sitios; cuenta el más fino. El mínimo del fabricante está marcado en el disco.",
      pad: "Rueda fuera, el material de la pastilla con calibre en lo más fino. Con o sin placa: como diga el fabricante.",
      chain:
        "Con un medidor de cadena, o una regla sobre 24 eslabones en tensión: cuánto más larga que nueva, en tanto por ciento.",
      tread: "Profundidad de un surco o de la marca de desgaste, en el centro de la cubierta, con un medidor de profundidad.",
      pressure: "Cubierta fría, manómetro recto en la válvula. Lee cuando está asentado, no mientras silba.",
    },
  },
};
