/** What the sheets for measuring with the phone say, in French. */

import type { SensorWords } from "../../sensors/words";

export const sensors: SensorWords = {
  enter: "Mesurer avec le téléphone",
  byPhone: (plusMinus: string) => `téléphone, ± ${plusMinus}`,
  angleTitle: "Angle au téléphone",
  toneTitle: "Son au téléphone",
  stopTitle: "Arrêt au téléphone",
  private: "Rien n’est gardé ni envoyé, sauf la valeur que vous reprenez.",
  start: "Commencer",
  refused: "Pas autorisé ici. Autorisez-le dans les réglages du navigateur, ou saisissez la valeur.",
  none: "Aucune mesure sur ce téléphone. Saisissez la valeur.",
  take: (figure: string) => `Reprendre ${figure}`,
  again: "Recommencer",
  spread: (figure: string) => `± ${figure}`,
  angle: {
    how: "Posez le grand côté le long de la pièce, haut du téléphone vers l’avant ; sur un tube, vers le haut.",
    cautions: [
      "Le ± est celui de la lecture. Une coque, un bouton, une selle souple ou un sol qui penche s’y ajoutent.",
      "Si un règlement ou un fabricant donne l’angle, leur propre gabarit décide.",
    ],
    unsteady: "Ça bouge : lâchez-le.",
    still: "Immobile.",
    first: "1 sur 2 : tel qu’il est posé.",
    turned: "2 sur 2 : retourné bout pour bout, au même endroit. L’erreur propre du téléphone s’annule.",
    read: "Lire",
    single: "Ou posez-le sur une surface connue pour être de niveau :",
    level: "Ceci est de niveau",
    zeroed: (figure: string) => `Zéro retranché : ${figure}`,
    result: "Angle",
    keep: "Garder pour l’autre côté",
    differs: "Écart à l’autre côté",
  },
  tone: {
    how: "Étouffez les autres, téléphone à moins d’une main. Pincez près du milieu de la partie libre, au moins trois fois.",
    cautions: [
      "Lunettes de protection : un rayon peut lâcher.",
      "Bon pour comparer des rayons. Leur tension, c’est un tensiomètre qui la dit, et la valeur du fabricant de la jante décide.",
    ],
    listening: "À l’écoute",
    plucks: (count: number) => (count < 2 ? `${count} son` : `${count} sons`),
    more: "Trois sons au moins.",
    octave: "Inhabituel pour ce rayon, mais pas son octave. Pincez plus près du milieu ; comparez avec un voisin.",
    outside: "Inhabituel pour ce rayon. Vérifiez longueur et diamètre.",
    apart: "Les sons s’écartent de plus de 3 % : étouffez les autres.",
  },
  stop: {
    how: "Téléphone fixé au vélo ou en poche, écran allumé. Commencez, partez, tenez la vitesse cinq secondes, freinez jusqu’à l’arrêt, attendez deux secondes.",
    cautions: [
      "Route fermée ou vide, sèche et plate, casque sur la tête, jamais dans la circulation. D’abord au pas ; plus vite seulement si c’était bon.",
      "Ne regardez pas le téléphone en roulant.",
      "La vitesse d’un téléphone retarde. Ce n’est pas un essai d’homologation, et ne dit rien de l’usure ni des fissures.",
    ],
    searching: "Recherche de la position.",
    watching: (accuracy: string) => `Position connue à ${accuracy} près.`,
    poor: "Pas de vitesse d’ici. S’il n’en vient pas en roulant, saisissez celle d’un capteur de roue.",
    waiting: "Pas encore d’arrêt vu.",
    coarse: "Trop grossier pour la distance : mesurez-la au ruban, depuis l’endroit où le frein a pris.",
    speed: "Vitesse",
    distance: "Distance",
  },
};
