/** What the people's section says, in Spanish. */

import type { TeamWords } from "../../screens/device/team-words";

export const team: TeamWords = {
  title: "Personas y teléfonos",
  needsServer: "La lista de teléfonos es del servidor. Ahora mismo no se llega a él.",
  seen: (when) => `visto por última vez ${when}`,
  unsent: (count) => (count === 1 ? "1 entrada sin enviar" : `${count} entradas sin enviar`),
  thisOne: "este teléfono",
  states: { paired: "", revoked: "acceso cerrado", unpaired: "aún sin acceso" },
  until: (when) => `hasta ${when}`,
  shutOut: "Cerrar acceso",
  lost: "Teléfono perdido",
  sure: (name) => `¿Cerrar ya el acceso a ${name}? Lo no enviado queda en él y se puede guardar allí como archivo.`,
  sureLost: (name) =>
    `¿Cerrar ya el acceso a ${name}? Quien lo haya encontrado no podrá leer nada nuevo, y su registro se borra la próxima vez que pregunte.`,
  yes: "Sí, cerrar acceso",
  no: "Dejarlo",
  done: (name) => `${name} ya no tiene acceso.`,
  doneUnsent: (name, count) =>
    `${name} ya no tiene acceso. Lo último que dijo es que ${count === 1 ? "había 1 entrada" : `había ${count} entradas`} sin enviar: si aparece, guárdelas allí como archivo o regístrelas otra vez.`,
  letIn: "Dar acceso a alguien",
  newPhone: "Otro teléfono",
  name: "Nombre",
  role: "Papel",
  bikes: "Bicis de este ciclista",
  bikesHelp: "Un ciclista solo ve sus propias bicis.",
  event: "Prueba",
  allEvents: "Todas las pruebas",
  checkerHelp: "Este revisor ve la lista de salida de todas las pruebas y las bicis que hay en ellas.",
  eventHelp: "El revisor ve la lista de salida de esta prueba y sus bicis, y puede cambiar placas en ella.",
  sees: (event) => `solo ve ${event}`,
  good: "El código vale",
  goods: { "15": "15 minutos", "60": "1 hora", "1440": "1 día" },
  access: "El teléfono tiene acceso",
  accesses: { "0": "sin límite", "3": "3 días", "30": "30 días" },
  make: "Crear el código",
  scan: (who) => `${who} lo abre con la cámara del teléfono o escribe el código. Vale una vez.`,
  qr: "Código QR del enlace para vincular",
  copy: "Copiar el enlace",
  finish: "Listo",

  byPassphrase: {
    offer: "Soy el dueño y tengo una frase de contraseña",
    person: "Nombre del dueño",
    passphrase: "Frase de contraseña",
  },

  passkey: {
    title: "Llave de acceso",
    help: "Le da acceso a usted, el dueño, en un equipo nuevo sin código: con huella, cara o PIN, según pida su dispositivo. En el servidor no se guarda nada secreto.",
    make: "Crear una llave de acceso",
    made: "La llave de acceso está guardada. En un equipo nuevo, elíjala en la hoja de vincular.",
    none: "No se dio ninguna llave de acceso. Nada ha cambiado.",
    offer: "Soy el dueño y tengo una llave de acceso",
  },
};
