/** What the people’s section says, in French. */

import type { TeamWords } from "../../screens/device/team-words";

const unsent = (count: number) => (count < 2 ? `${count} entrée non envoyée` : `${count} entrées non envoyées`);

export const team: TeamWords = {
  title: "Personnes et téléphones",
  needsServer: "La liste des téléphones est celle du serveur, injoignable pour l’instant.",
  seen: (when: string) => `vu ${when}`,
  unsent,
  thisOne: "ce téléphone",
  states: { paired: "", revoked: "exclu", unpaired: "non admis" },
  until: (when: string) => `expire ${when}`,
  shutOut: "Exclure",
  lost: "Téléphone perdu",
  sure: (name: string) =>
    `Exclure ${name} tout de suite ? Ce qu’il n’a pas envoyé reste dessus et peut y être enregistré en fichier.`,
  sureLost: (name: string) =>
    `Exclure ${name} tout de suite ? Qui le trouve ne peut rien lire de nouveau, et son dossier disparaît à sa prochaine demande.`,
  yes: "Oui, l’exclure",
  no: "Laisser",
  done: (name: string) => `${name} est exclu.`,
  doneUnsent: (name: string, count: number) =>
    `${name} est exclu. D’après son dernier message : ${unsent(count)}. S’il réapparaît, enregistrez-les dessus en fichier, ou saisissez-les à nouveau.`,
  letIn: "Admettre quelqu’un",
  newPhone: "Un autre téléphone",
  name: "Nom",
  role: "Rôle",
  bikes: "Vélos de ce cycliste",
  bikesHelp: "Un cycliste ne voit que ses propres vélos.",
  event: "Épreuve",
  allEvents: "Toutes les épreuves",
  checkerHelp: "Ce contrôleur voit la liste de départ de chaque épreuve et les vélos qui y figurent.",
  eventHelp:
    "Le contrôleur voit la liste de départ de cette épreuve et les vélos qui y figurent, et peut y changer des plaques.",
  sees: (event: string) => `ne voit que ${event}`,
  good: "Le code est valable",
  goods: { "15": "15 minutes", "60": "1 heure", "1440": "1 jour" },
  access: "Le téléphone est admis",
  accesses: { "0": "sans limite", "3": "3 jours", "30": "30 jours" },
  make: "Créer le code",
  scan: (who: string) => `${who} l’ouvre avec l’appareil photo du téléphone, ou tape le code. Il est valable une seule fois.`,
  qr: "Code QR du lien de jumelage",
  copy: "Copier le lien",
  finish: "Terminé",
  byPassphrase: {
    offer: "Je suis propriétaire et j’ai une phrase secrète",
    person: "Nom du propriétaire",
    passphrase: "Phrase secrète",
  },
  passkey: {
    title: "Clé d’accès",
    help: "Vous admet, propriétaire, sur une nouvelle machine sans code : par doigt, visage ou code PIN, comme votre appareil le demande. Rien de secret n’est gardé sur le serveur.",
    make: "Créer une clé d’accès",
    made: "La clé d’accès est gardée. Sur une nouvelle machine, choisissez-la sur la fiche de jumelage.",
    none: "Aucune clé d’accès n’a été donnée. Rien n’a changé.",
    offer: "Je suis propriétaire et j’ai une clé d’accès",
  },
};
