/** What the people's section says. */

import { spoken } from "../../languages/spoken";
import type { Role } from "../../store/types";

const people = {
  title: "People and phones",
  needsServer: "The list of phones is the server's. There is no way to it just now.",
  seen: (when: string) => `last seen ${when}`,
  unsent: (count: number) => (count === 1 ? "1 entry not sent" : `${count} entries not sent`),
  thisOne: "this phone",
  states: { paired: "", revoked: "shut out", unpaired: "not let in" },
  until: (when: string) => `until ${when}`,
  shutOut: "Shut out",
  lost: "Phone lost",
  sure: (name: string) => `Shut ${name} out at once? What it has not sent stays on it and can be saved to a file there.`,
  sureLost: (name: string) =>
    `Shut ${name} out at once? Whoever found it can read nothing new, and its record goes when it next asks.`,
  yes: "Yes, shut it out",
  no: "Leave it",
  done: (name: string) => `${name} is shut out.`,
  doneUnsent: (name: string, count: number) =>
    `${name} is shut out. It last said that ${count === 1 ? "1 entry was" : `${count} entries were`} not sent: if it turns up, save them to a file on it, or record them again.`,
  letIn: "Let somebody in",
  newPhone: "Another phone",
  name: "Name",
  role: "Role",
  bikes: "Bikes of this rider",
  bikesHelp: "A rider sees their own bikes only.",
  event: "Event",
  allEvents: "All events",
  checkerHelp: "This checker sees every event's start list and the bikes on it.",
  eventHelp: "The checker sees this event's start list and the bikes on it, and may change plates there.",
  sees: (event: string) => `sees ${event} only`,
  good: "The code is good for",
  goods: { "15": "15 minutes", "60": "1 hour", "1440": "1 day" },
  access: "The phone is let in",
  accesses: { "0": "for good", "3": "3 days", "30": "30 days" },
  make: "Make the code",
  scan: (who: string) => `${who} opens this with the phone's camera, or types the code. It is good once.`,
  qr: "QR code of the pairing link",
  copy: "Copy the link",
  finish: "Done",
};

const byPassphrase = {
  offer: "I am the owner and have a passphrase",
  person: "Owner's name",
  passphrase: "Passphrase",
};

const passkey = {
  title: "Passkey",
  help: "Lets you, the owner, in on a new machine without a code: by finger, face or PIN, as your device asks. Nothing secret is kept on the server.",
  make: "Make a passkey",
  made: "The passkey is kept. On a new machine, choose it on the pairing sheet.",
  none: "No passkey was given. Nothing has changed.",
  offer: "I am the owner and have a passkey",
};

export const english = { ...people, byPassphrase, passkey };

export type TeamWords = typeof english;

export const team: TeamWords = spoken("team", english);

export const LETS_IN: Record<Role, Role[]> = {
  owner: ["rider", "checker", "mechanic", "owner"],
  mechanic: ["rider", "checker"],
  checker: [],
  rider: [],
};
