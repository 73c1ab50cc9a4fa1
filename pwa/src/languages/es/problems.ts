/** What can go wrong between phone, server and files, in Spanish. */

import type { ProblemWords } from "../../store/words";

export const problems: ProblemWords = {
  noWay: "Ahora mismo no se llega al servidor.",
  noNetwork: "Sin red.",
  brokeOff: "La conexión se cortó a mitad de la respuesta.",
  garbled: "La respuesta del servidor llegó cortada o no se entiende.",
  tooMuch: "Lo enviado de una vez es demasiado para el servidor.",
  waitALittle: "El servidor pide esperar un poco.",
  ownTrouble: (status) => `El servidor tiene un problema propio (${status}).`,
  shutOut: "A este teléfono se le cerró el acceso al taller. Lo no enviado se conserva: guárdelo como archivo.",
  signedOut: "Este teléfono ya no tiene sesión. Vincúlelo otra vez; no se pierde nada.",
  forbidden: "El servidor no permite eso a este teléfono.",
  newerServer:
    "El servidor habla una versión más nueva. Tome la actualización de esta app cuando se ofrezca; hasta entonces todo se guarda aquí.",
  olderServer: "El servidor habla una versión más antigua y hay que actualizarlo; hasta entonces todo se guarda aquí.",
  stranger: "Respondió algo que no es el servidor del taller, quizá la página de acceso de una red.",
  declined: (status) => `El servidor no lo aceptó (${status}).`,
  notAcknowledged: "El servidor responde, pero no confirma lo que envía este teléfono. Guarde lo pendiente como archivo.",
  otherChain:
    "El servidor tiene otra entrada a nombre de este teléfono. Guarde lo pendiente como archivo y vincúlelo de nuevo.",
  notPaired: "Este teléfono aún no está vinculado con un taller, así que no se puede registrar nada.",
  notRefused: "Esta entrada ya no está entre las rechazadas: mire lo que muestra ahora el registro.",
  badCode: "Ese código no vale, o ya no vale. Pida uno nuevo.",
  tooManyTries: "Demasiados intentos. Espere un minuto y pruebe otra vez.",
  pairingNeedsServer: "Para vincular hace falta el servidor, y ahora no se llega a él.",
  table: {
    notText: "Esto no es una tabla de texto: tiene bytes que ningún texto tiene.",
    oneColumn: "Una sola columna: una tabla tiene columnas separadas por coma, punto y coma, tabulador o barra.",
    openQuote: (line) => `Unas comillas se abren y no se cierran, cerca de la línea ${line}.`,
    nothingUnder: "Hay encabezados y nada debajo.",
  },
  ride: {
    notXml: "no es un archivo XML",
    notGpx: "no es un archivo GPX",
    noTrack: "este archivo no tiene recorrido",
  },
};
