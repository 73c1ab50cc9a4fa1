/** What can go wrong between phone, server and files, in French. */

import type { ProblemWords } from "../../store/words";

export const problems: ProblemWords = {
  noWay: "Serveur injoignable pour l’instant.",
  noNetwork: "Pas de réseau.",
  brokeOff: "La connexion s’est coupée au milieu de la réponse.",
  garbled: "La réponse du serveur est tronquée ou incompréhensible.",
  tooMuch: "Ce qui a été envoyé d’un coup est trop pour le serveur.",
  waitALittle: "Le serveur demande d’attendre un peu.",
  ownTrouble: (status: number) => `Le serveur a lui-même un problème (${status}).`,
  shutOut: "Ce téléphone a été exclu de l’atelier. Ce qu’il n’a pas envoyé est gardé : enregistrez-le en fichier.",
  signedOut: "Ce téléphone est déconnecté. Jumelez-le à nouveau ; rien n’est perdu.",
  forbidden: "Le serveur ne permet pas cela à ce téléphone.",
  newerServer:
    "Le serveur parle une version plus récente. Prenez la mise à jour de cette app quand elle est proposée ; d’ici là tout est gardé ici.",
  olderServer: "Le serveur parle une version plus ancienne et doit être mis à jour ; d’ici là tout est gardé ici.",
  stranger: "Autre chose que le serveur de l’atelier a répondu, peut-être la page de connexion d’un réseau.",
  declined: (status: number) => `Le serveur ne l’a pas pris (${status}).`,
  notAcknowledged:
    "Le serveur répond, mais n’accuse pas réception de ce que ce téléphone envoie. Enregistrez la file d’attente en fichier.",
  otherChain:
    "Le serveur a une autre entrée au nom de ce téléphone. Enregistrez la file d’attente en fichier et jumelez à nouveau.",
  notPaired: "Ce téléphone n’est pas encore jumelé avec un atelier : rien ne peut donc être enregistré.",
  notRefused: "Cette entrée n’est plus parmi les refusées : regardez ce que le dossier montre maintenant.",
  badCode: "Ce n’est pas, ou plus, valable. Demandez un nouveau code.",
  tooManyTries: "Trop d’essais. Attendez une minute et réessayez.",
  pairingNeedsServer: "Le jumelage demande le serveur, injoignable pour l’instant.",
  table: {
    notText: "Ce n’est pas un tableau de texte : il contient des octets qu’aucun texte n’a.",
    oneColumn: "Une seule colonne : un tableau a des colonnes séparées par virgule, point-virgule, tabulation ou barre.",
    openQuote: (line: number) => `Un guillemet est ouvert et non fermé, vers la ligne ${line}.`,
    nothingUnder: "Il y a des en-têtes et rien dessous.",
  },
  ride: {
    notXml: "ce n’est pas un fichier XML",
    notGpx: "ce n’est pas un fichier GPX",
    noTrack: "aucune trace dans ce fichier",
  },
};
