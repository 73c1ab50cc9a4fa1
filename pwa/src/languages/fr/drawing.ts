/** On and about the bench’s drawings, in French. */

import type { DrawingWords } from "../../drawing/words";
import { told } from "../saying";

const drawnTimes = (factor: number) => `dessiné ${factor} fois plus grand`;

export const drawing: DrawingWords = {
  times: (factor: number) => `×${factor}`,
  drawn: (what: string, factor: number) => (factor === 1 ? `${what} à l’échelle` : `${what} dessiné ×${factor}`),

  frontEnd: (x: string | null, y: string | null) =>
    told(
      "Avant du vélo vu du côté transmission, à l’échelle : douille de direction, entretoises, potence et cintre, mesurés depuis le boîtier de pédalier.",
      x !== null && y !== null && `Cintre ${x} en avant et ${y} au-dessus.`,
    ),
  transfer: (x: string | null, y: string | null, miss: string | null) =>
    told(
      "Avant du vélo à l’échelle : la position visée sur la plus proche qui puisse se monter.",
      x !== null && y !== null && `Cible ${x} en avant du boîtier de pédalier et ${y} au-dessus.`,
      miss !== null ? `La plus proche la manque de ${miss}.` : "Aucun montage calculé encore.",
    ),
  saddle: (height: string | null, shift: string | null) =>
    told(
      "Selle et tige vues du côté transmission, à l’échelle, l’ancienne position en fin, la nouvelle en bleu.",
      height !== null && `Nouvelle hauteur de selle ${height}.`,
      shift !== null && `Chariot ${shift} le long des rails depuis le milieu.`,
    ),
  steering: (trail: string | null, gap: string | null) =>
    told(
      "Fourche et roue avant vues du côté transmission, à l’échelle, l’axe de direction prolongé jusqu’au sol.",
      trail !== null && `Chasse ${trail}.`,
      gap !== null && `Pointe du pied au pneu ${gap}.`,
    ),
  trail: "chasse",
  toe: "pointe",
  tilt: (tilt: string | null, factor: number) =>
    told(
      "Le vélo avant, en fin, et après, en gras, tourné autour du boîtier de pédalier.",
      tilt !== null && `Bascule ${tilt}${factor === 1 ? "" : `, ${drawnTimes(factor)}`}.`,
    ),
  hose: (slack: string | null, side: string | null) =>
    told(
      "Cintre vu de dessus, droit et braqué à fond des deux côtés, avec la ligne du port à l’attache.",
      slack !== null &&
        (side === null ? `Il faut ${slack} de mou.` : `Il faut ${slack} de mou, le plus en braquant à ${side}.`),
    ),
  left: "gauche",
  right: "droite",
  front: "avant",
  rear: "arrière",
  port: "port",
  needs: (slack: string) => `il faut ${slack}`,
  has: (slack: string) => `il y a ${slack}`,
  tie: "attache",

  chainLine: (pitches: string | null, length: string | null) =>
    told(
      "Plus grand plateau et plus grand pignon à l’échelle, avec la chaîne autour des deux.",
      pitches !== null && `${pitches} maillons${length === null ? "" : `, ${length}`}.`,
    ),
  pitches: (count: string) => `${count} maillons`,
  chainWear: (elongation: string | null, limit: string | null, factor: number) =>
    told(
      "Une chaîne neuve au-dessus de la chaîne usée, depuis le même axe.",
      elongation !== null && `Allongement ${elongation}, ${drawnTimes(factor)}${limit === null ? "" : `, limite ${limit}`}.`,
    ),
  newChain: "neuve",
  wornChain: (factor: number) => `cette chaîne, usure ×${factor}`,
  limit: "limite",
  ladder: (rings: string, low: string, high: string) =>
    told(
      `Les vitesses sur une échelle graduée, une ligne par plateau (${rings}), des écarts égaux à distance égale.`,
      low !== "" && `De ${low} à ${high} par tour.`,
    ),
  ladderNothing: "Une échelle des vitesses : donnez plateaux et pignons.",
  teeth: (count: number) => `${count} dents`,
  aTurn: "mètres par tour de manivelle",
  climb: (gradient: string | null, speed: string | null, cadence: string | null, least: string | null) =>
    told(
      "La pente à l’échelle et la cadence sur une échelle graduée.",
      gradient !== null && `Pente ${gradient}.`,
      speed !== null && `Vitesse ${speed}.`,
      cadence !== null && `Cadence ${cadence}${least === null ? "" : `, voulue au moins ${least}`}.`,
    ),
  least: (value: string) => `min. ${value}`,
  wantedCog: (cog: string) => `pignon voulu ${cog}`,
  lowestGear: (ring: string, cog: string) => `${ring} × ${cog} dents`,
  hanger: (toe: string | null, camber: string | null) =>
    told(
      "Jante vue du côté transmission avec les quatre écarts de la jauge.",
      toe !== null && camber !== null && `Patte tournée de ${toe} vue de dessus et de ${camber} vue de derrière.`,
    ),
  spread: (spread: string, tolerance: string | null) =>
    tolerance === null ? `dispersion ${spread}` : `dispersion ${spread} sur ${tolerance}`,
  leanDrawn: (factor: number) => (factor === 1 ? "à l’échelle" : `inclinaison dessinée ×${factor}`),
  fromAbove: "de dessus",
  fromBehind: "de derrière",

  rollout: (diameter: string | null, round: string | null, measured: string | null) =>
    told(
      "La roue aux deux bouts d’un tour au sol, à l’échelle.",
      diameter !== null && `Diamètre ${diameter}.`,
      round !== null && `Circonférence ${round}.`,
      measured !== null && `Mesuré ${measured}.`,
    ),
  measured: "mesuré",
  rimFit: (tyre: string | null, rim: string | null, left: string | null) =>
    told(
      "Pneu sur sa jante en coupe, entre les deux côtés du cadre, à l’échelle.",
      tyre !== null && `Pneu ${tyre}`,
      rim !== null && `sur une jante de ${rim} à l’intérieur.`,
      left !== null && `Place de chaque côté ${left}.`,
    ),
  eachSide: (room: string) => `${room} de chaque côté`,
  tyreDrop: (drop: string | null, target: string | null) =>
    told(
      "Pneu en coupe, sans charge en fin, chargé en gras, à l’échelle.",
      drop !== null && `Il s’écrase de ${drop} de sa hauteur${target === null ? "" : ` ; voulu ${target}`}.`,
    ),
  wanted: "voulu",
  pressures: (what: string) => `Pression sur une échelle graduée. ${what}`,
  cap: "plafond",
  before: "maintenant",
  onTheDay: "le jour même",
  toSet: "à régler",
  start: "départ",
  after: "après",
  topUp: "recharger",
  toPutIn: (volume: string) => `${volume} à mettre`,
  sealant: (volume: string | null, left: string | null) =>
    told(
      "Jours depuis le dernier préventif sur une échelle graduée, avec le jour du complément.",
      volume !== null && `${volume} à mettre.`,
      left !== null && `Complément dans ${left}.`,
    ),
  nothingYet: "Rien de calculé encore.",
  spoke: (length: string | null, crosses: string | null) =>
    told(
      "Flasque de moyeu et jante de côté, à l’échelle, un rayon en bleu.",
      crosses !== null && `Croisements ${crosses}.`,
      length !== null && `Rayon ${length}.`,
    ),
  string: (length: string | null, tone: string | null, tension: string | null) =>
    told(
      "Le rayon comme une corde vibrant entre ses bouts.",
      length !== null && `Longueur libre ${length}.`,
      tone !== null && `Son ${tone}.`,
      tension !== null && `Tension ${tension}.`,
    ),
  rose: (left: string | null, right: string | null, off: number) =>
    told(
      "Tensions des rayons autour de la roue, gauche et droite, chacune avec sa moyenne et la bande de 20 % autour.",
      left !== null && `Moyenne gauche ${left}.`,
      right !== null && `Moyenne droite ${right}.`,
      off > 0 && `${off} hors de la bande.`,
    ),
  bracing: (angle: string) => `angle de rayonnage ${angle}`,
  mean: "moyenne",

  adaptor: (setting: string | null, joint: string | null) =>
    told(
      "Clé avec son adaptateur vue de dessus, à l’échelle.",
      joint !== null && `Voulu à la vis ${joint}.`,
      setting !== null && `Régler la clé à ${setting}.`,
    ),
  setTo: (value: string) => `régler ${value}`,
  joint: "vis",
  torqueCheck: (applied: string | null, low: string | null, high: string | null) =>
    told(
      "Couple sur une échelle graduée avec la bande admise.",
      applied !== null && `Appliqué ${applied}.`,
      low !== null && high !== null && `Admis ${low} à ${high}.`,
    ),
  lowest: (value: string) => `bas ${value}`,
  highest: (value: string) => `haut ${value}`,
  proof: (used: string | null) =>
    told(
      "Part de la charge d’épreuve de la vis sur une échelle graduée, prudence dès 75 %, arrêt dès 100 %.",
      used !== null && `Utilisé ${used}.`,
    ),
  clamp: (force: string) => `force de serrage ${force}`,
  proofUse: (value: string) => `${value} de l’épreuve`,

  weight: (total: string | null, goal: string | null, sd: string | null) =>
    told(
      "Poids des pièces mis bout à bout sur une échelle graduée.",
      total !== null && `Total ${total}${sd === null ? "" : `, à ${sd} près`}.`,
      goal !== null && `Visé ${goal}.`,
    ),
  total: "total",
  goal: "visé",
  base: "base",
  toSpare: (mass: string) => `${mass} de marge`,
  over: (mass: string) => `${mass} de trop`,
  missing: (slots: string) => `manque : ${slots}`,
  dashedClaimed: "Tirets : annoncé, non pesé.",
  swaps: (total: string | null, goal: string | null, cost: string | null) =>
    told(
      "Le poids avec les pièces choisies, mis bout à bout sur une échelle graduée.",
      total !== null && `Total ${total}.`,
      goal !== null && `Visé ${goal}.`,
      cost !== null && `Coût ${cost}.`,
    ),
  forecast: (limit: string | null, at: string | null, from: string | null, to: string | null) =>
    told(
      "Les relevés, la droite qui les traverse et la limite.",
      limit !== null && `Limite ${limit}.`,
      at !== null && `Atteinte à ${at}`,
      from !== null && to !== null && `entre ${from} et ${to}.`,
    ),
  now: "maintenant",
  stopping: (distance: string | null, reference: string | null) =>
    told(
      "Distance d’arrêt sur une échelle graduée.",
      distance !== null && `Arrêté en ${distance}.`,
      reference !== null && `Distance d’essai ${reference}.`,
    ),
  stoppedIn: "arrêté en",
  reference: "essai",
  atTestSpeed: "à la vitesse d’essai",

  how: {
    title: "Comment mesurer",
    drawn: (label: string) => `Où se mesure « ${label} » : l’endroit est dessiné en bleu.`,
    texts: {
      "saddle-tilt": "Vélo de niveau. Posez une planche droite sur la selle et l’inclinomètre dessus ; bec levé compte +.",
      "bar-ahead": "Vélo de niveau : fils à plomb par l’axe du pédalier et le centre du cintre, la distance entre les deux.",
      "bar-above": "Vélo de niveau : hauteur du centre du cintre depuis le sol, moins celle de l’axe du pédalier.",
      "bar-tilt":
        "Vélo de niveau, inclinomètre le long du bout droit du creux. Toujours au même endroit, sinon deux relevés ne disent rien.",
      crank:
        "De l’axe du pédalier au centre de l’axe de pédale. La longueur est le plus souvent marquée au dos de la manivelle.",
      "lever-reach":
        "À l’horizontale, du cintre à l’avant du levier, là où le doigt se pose. À gauche et à droite au même endroit.",
      "lever-height": "Vélo de niveau, guidon droit : du sol au sommet de la cocotte. À gauche et à droite au même endroit.",
      "lever-angle": "Vélo de niveau, inclinomètre le long du dessus de la cocotte. À gauche et à droite de la même façon.",
      rotor:
        "Micromètre sur la piste de freinage, en quatre endroits ; le plus mince compte. Le minimum du fabricant est marqué sur le disque.",
      pad: "Roue sortie, la garniture au pied à coulisse au plus mince. Avec ou sans support : comme le dit le fabricant.",
      chain:
        "Avec une jauge de chaîne, ou une règle sur 24 maillons tendus : de combien elle est plus longue que neuve, en pour cent.",
      tread: "Profondeur d’une rainure ou du témoin d’usure, au milieu du pneu, avec une jauge de profondeur.",
      pressure: "Pneu froid, manomètre droit sur la valve. Lisez quand il est en place, pas pendant qu’il siffle.",
    },
  },
};
