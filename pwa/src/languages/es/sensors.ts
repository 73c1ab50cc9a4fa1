/** What the sheets for measuring with the phone say, in Spanish. */

import type { SensorWords } from "../../sensors/words";

export const sensors: SensorWords = {
  enter: "Medir con el teléfono",
  byPhone: (plusMinus) => `teléfono, ± ${plusMinus}`,
  angleTitle: "Ángulo con el teléfono",
  toneTitle: "Tono con el teléfono",
  stopTitle: "Frenada con el teléfono",
  private: "No se guarda ni se envía nada más que el valor que usted tome.",
  start: "Empezar",
  refused: "Aquí no está permitido. Permítalo en los ajustes del navegador o escriba el valor.",
  none: "Este teléfono no da lecturas. Escriba el valor.",
  take: (figure) => `Tomar ${figure}`,
  again: "Otra vez",
  spread: (figure) => `± ${figure}`,
  angle: {
    how: "Ponga el canto largo a lo largo de la pieza, la parte de arriba hacia delante; en un tubo, hacia arriba.",
    cautions: [
      "El ± es de la lectura. Se le suman una funda, un botón, un sillín blando o un suelo desnivelado.",
      "Donde un reglamento o un fabricante da el ángulo, decide su propia plantilla.",
    ],
    unsteady: "Se mueve: suéltelo.",
    still: "Quieto.",
    first: "1 de 2: tal como está.",
    turned: "2 de 2: girado de punta a punta, en el mismo sitio. Así se anula el error propio del teléfono.",
    read: "Leer",
    single: "O póngalo en una superficie que se sabe nivelada:",
    level: "Esto está a nivel",
    zeroed: (figure) => `Cero descontado: ${figure}`,
    result: "Ángulo",
    keep: "Guardar para el otro lado",
    differs: "Respecto al otro lado",
  },
  tone: {
    how: "Apague los demás, el teléfono a menos de un palmo. Pulse cerca del centro de la parte libre, tres veces o más.",
    cautions: [
      "Gafas de protección: un radio puede soltarse.",
      "Sirve para comparar radios. Cuánta tensión tienen lo dice un tensiómetro, y manda el valor del fabricante de la llanta.",
    ],
    listening: "Escuchando",
    plucks: (count) => (count === 1 ? "1 pulsación" : `${count} pulsaciones`),
    more: "Al menos tres pulsaciones.",
    octave: "No es habitual en este radio, pero su octava sí. Pulse más cerca del centro; compare con uno vecino.",
    outside: "No es habitual en este radio. Compruebe longitud y diámetro.",
    apart: "Las pulsaciones difieren más de un 3 %: apague los demás.",
  },
  stop: {
    how: "El teléfono en la bici o en un bolsillo, con la pantalla encendida. Empiece, arranque, mantenga la velocidad cinco segundos, frene hasta parar y espere dos.",
    cautions: [
      "Carretera cerrada o vacía, seca y llana, con casco, nunca entre tráfico. Primero a paso de peatón; más rápido solo si fue bien.",
      "No mire el teléfono mientras rueda.",
      "La velocidad de un teléfono va con retraso. Esto no es una homologación y no dice nada de desgaste ni grietas.",
    ],
    searching: "Buscando la posición.",
    watching: (accuracy) => `Posición conocida con ${accuracy}.`,
    poor: "De aquí no sale velocidad. Si no llega mientras rueda, escriba la de un sensor de rueda.",
    waiting: "Aún no se ha visto ninguna frenada.",
    coarse: "Demasiado impreciso para la distancia: mídala con cinta, desde donde empezó a frenar.",
    speed: "Velocidad",
    distance: "Distancia",
  },
};
