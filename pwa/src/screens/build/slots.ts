/** Where parts go on a bike, in the order it is put together. A slot is only a name: any other may be written. */

export const SLOTS = [
  "frame",
  "fork",
  "headset",
  "stem",
  "bar",
  "tape",
  "seatpost",
  "saddle",
  "wheel-front",
  "wheel-rear",
  "tyre-front",
  "tyre-rear",
  "sealant",
  "valves",
  "axles",
  "bottom-bracket",
  "crank",
  "chainring",
  "cassette",
  "chain",
  "rear-mech",
  "front-mech",
  "shifters",
  "brake-front",
  "brake-rear",
  "rotor-front",
  "rotor-rear",
  "hoses",
  "pedals",
  "cages",
  "battery",
] as const;

/** Slots in that order, unknown ones last. */
export function slotOrder(slot: string): number {
  const at = (SLOTS as readonly string[]).indexOf(slot);
  return at < 0 ? SLOTS.length : at;
}

/** "Rear wheel", "rear-wheel", "wheel rear": the slot a person means, or what they wrote with dashes for blanks. */
export function slotNamed(text: string): string {
  const tidy = text
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, "-");
  if ((SLOTS as readonly string[]).includes(tidy)) return tidy;
  const turned = tidy.split("-");
  if (turned.length === 2) {
    const other = `${turned[1]}-${turned[0]}`;
    if ((SLOTS as readonly string[]).includes(other)) return other;
  }
  return SAME[tidy] ?? tidy;
}

const SAME: Record<string, string> = {
  handlebar: "bar",
  handlebars: "bar",
  "bar-tape": "tape",
  post: "seatpost",
  bb: "bottom-bracket",
  cranks: "crank",
  crankset: "crank",
  levers: "shifters",
  shifter: "shifters",
  "bottle-cages": "cages",
  cage: "cages",
  axle: "axles",
  pedal: "pedals",
};
