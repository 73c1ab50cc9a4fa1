/** What the sheets for measuring with the phone say, in German. */

import type { SensorWords } from "../../sensors/words";

export const sensors: SensorWords = {
  enter: "Mit dem Telefon messen",
  byPhone: (plusMinus) => `Telefon, ± ${plusMinus}`,
  angleTitle: "Winkel mit dem Telefon",
  toneTitle: "Ton mit dem Telefon",
  stopTitle: "Bremsung mit dem Telefon",
  private: "Behalten oder gesendet wird nur der übernommene Wert.",
  start: "Beginnen",
  refused: "Hier nicht erlaubt. In den Einstellungen des Browsers erlauben oder den Wert eintippen.",
  none: "Dieses Telefon misst hier nichts. Den Wert eintippen.",
  take: (figure) => `${figure} übernehmen`,
  again: "Noch einmal",
  spread: (figure) => `± ${figure}`,
  angle: {
    how: "Lange Kante ans Teil legen, Oberkante nach vorn; an einem Rohr nach oben.",
    cautions: [
      "Das ± gilt der Ablesung. Hülle, Taste, weicher Sattel oder schiefer Boden kommen dazu.",
      "Wo eine Regel oder ein Hersteller den Winkel vorgibt, entscheidet deren eigene Lehre.",
    ],
    unsteady: "Nicht ruhig: Hände weg.",
    still: "Ruhig.",
    first: "1 von 2: so, wie es liegt.",
    turned: "2 von 2: Ende gegen Ende gedreht, an derselben Stelle. Der eigene Fehler des Telefons fällt heraus.",
    read: "Ablesen",
    single: "Oder auf eine Fläche legen, die sicher waagerecht ist:",
    level: "Das ist waagerecht",
    zeroed: (figure) => `Nullpunkt abgezogen: ${figure}`,
    result: "Winkel",
    keep: "Für die andere Seite merken",
    differs: "Zur anderen Seite",
  },
  tone: {
    how: "Die anderen dämpfen, Telefon auf eine Handbreit heran. Nahe der Mitte des freien Stücks zupfen, dreimal oder öfter.",
    cautions: [
      "Schutzbrille: Eine Speiche kann losgehen.",
      "Gut, um Speichen zu vergleichen. Wie straff sie sind, sagt ein Tensiometer, und der Wert des Felgenherstellers gilt.",
    ],
    listening: "Hört zu",
    plucks: (count) => (count === 1 ? "1-mal gezupft" : `${count}-mal gezupft`),
    more: "Mindestens dreimal zupfen.",
    octave: "Für diese Speiche unüblich, ihre Oktave nicht. Näher an der Mitte zupfen; mit einer Nachbarin vergleichen.",
    outside: "Für diese Speiche unüblich. Länge und Durchmesser prüfen.",
    apart: "Die Töne weichen mehr als 3 % voneinander ab: die anderen dämpfen.",
  },
  stop: {
    how: "Telefon am Rad oder in der Tasche, Bildschirm an. Beginnen, losfahren, fünf Sekunden das Tempo halten, bis zum Stand bremsen, zwei Sekunden warten.",
    cautions: [
      "Gesperrte oder leere Straße, trocken und eben, mit Helm, nie im Verkehr. Erst im Schritttempo; schneller nur, wenn das gut ging.",
      "Beim Fahren nicht aufs Telefon sehen.",
      "Das Tempo vom Telefon hinkt nach. Das ist keine Typprüfung und sagt nichts über Verschleiß oder Risse.",
    ],
    searching: "Sucht den Ort.",
    watching: (accuracy) => `Ort auf ${accuracy} bekannt.`,
    poor: "Von hier kommt kein Tempo. Kommt auch beim Fahren keines, das eines Radsensors eintippen.",
    waiting: "Noch keine Bremsung gesehen.",
    coarse: "Zu grob für den Weg: mit dem Maßband messen, ab der Stelle, wo die Bremse griff.",
    speed: "Tempo",
    distance: "Weg",
  },
};
