/** What can go wrong between phone, server and files, in words for a person. */

import { spoken } from "../languages/spoken";

export const english = {
  noWay: "No way to the server just now.",
  noNetwork: "No network.",
  brokeOff: "The connection broke off in the middle of the answer.",
  garbled: "The server's answer was cut short or is not understood.",
  tooMuch: "What was sent at once is too much for the server.",
  waitALittle: "The server asks to wait a little.",
  ownTrouble: (status: number) => `The server has trouble of its own (${status}).`,
  shutOut: "This phone was shut out of the workshop. What it has not sent is kept: save it as a file.",
  signedOut: "This phone is signed out. Pair it again; nothing is lost.",
  forbidden: "The server does not let this phone do that.",
  newerServer:
    "The server speaks a newer version. Take the update of this app when it is offered; until then all is kept here.",
  olderServer: "The server speaks an older version and has to be updated; until then all is kept here.",
  stranger: "Something else than the workshop's server answered, perhaps a network's sign-in page.",
  declined: (status: number) => `The server did not take it (${status}).`,
  notAcknowledged: "The server answers, but does not acknowledge what this phone sends. Save the queue to a file.",
  otherChain: "The server holds another entry in this phone's name. Save the queue to a file and pair anew.",
  notPaired: "This phone is not paired with a workshop yet, so nothing can be recorded.",
  notRefused: "This entry is no longer among the refused ones: look at what the record shows now.",
  badCode: "That is not, or no longer, good. Ask for a new code.",
  tooManyTries: "Too many tries. Wait a minute and try again.",
  pairingNeedsServer: "Pairing needs the server, and there is no way to it just now.",
  table: {
    notText: "This is not a table of text: it has bytes that no text has.",
    oneColumn: "One column only: a table has columns with a comma, semicolon, tab or bar between them.",
    openQuote: (line: number) => `A quotation mark is opened and not closed, near line ${line}.`,
    nothingUnder: "There are headings and nothing under them.",
  },
  ride: {
    notXml: "not an XML file",
    notGpx: "not a GPX file",
    noTrack: "no track in this file",
  },
};

export type ProblemWords = typeof english;

export const problems: ProblemWords = spoken("problems", english);
