/** Every word about a bike in use: adjusting, baselines, rides, wear, what is due. */

import { spoken } from "../../languages/spoken";

const of = (count: number, one: string, many: string) => (count === 1 ? `1 ${one}` : `${count} ${many}`);

export const english = {
  log: {
    search: "Find in the log",
    riding: "The riding, without the build",
    everybody: "Everybody",
    felt: (how: string) => `felt: ${how}`,
    climbed: (height: string) => `${height} up`,
    count: (shown: number, all: number) =>
      shown === all ? of(all, "entry", "entries") : `${shown} of ${of(all, "entry", "entries")}`,
  },

  quick: {
    title: "Adjust",
    line: "Say or type it",
    example: "saddle up 2",
    listen: "Say it",
    listening: "Listening",
    noSpeech: "Nothing was heard. Type it.",
    notAllowed: "The microphone is not allowed here. Type it.",
    speechFails: "Speech is not understood here just now. Some phones need a network for it. Type it.",
    was: (from: string, to: string) => `${from} → ${to}`,
    wanted: (what: string) => `Still wanted: ${what}.`,
    all: "All settings",
  },

  adjust: {
    felt: "How it felt",
    feltHelp: "In the rider's words.",
    whole: "The whole season",
  },

  baselines: {
    title: "Baselines",
    of: "Baseline",
    none: "No baseline yet. Freeze one when the bike stands as it should.",
    moved: "What moved since",
    nothingMoved: "Everything stands as it did.",
    alone: (labels: string[]) => `Not in this baseline, so left as it is: ${labels.join(", ")}.`,
    back: "Step back",
    backHelp: "Turn each by what stands here, tick it, then record. Tighten what you loosened to its figure.",
    tickAll: "All of them",
    record: (count: number) => `Record ${of(count, "step", "steps")} back`,
    recorded: (count: number, name: string) => `${of(count, "step", "steps")} back to “${name}”`,
    reason: (name: string) => `stepped back to “${name}”`,
    compare: "Compare two days",
    backOrCompare: "Step back, compare",
    before: "From",
    after: "To",
    settings: "Settings",
    measures: "Measured",
    parts: "Parts",
    fitted: "fitted",
    removed: "removed",
    between: (km: string, hours: string) => `Ridden in between: ${km}, ${hours}.`,
    nothing: "Nothing differs.",
    swapped: "The first day is after the second.",
    notYet: "Nothing was on record by then.",
    standsAt: (day: string) => `At the end of ${day}; blue is what moved since the first day.`,
  },

  season: {
    says: (label: string, from: string, to: string, count: number) =>
      `${label} over the season: from ${from} to ${to} in ${of(count, "move", "moves")}.`,
    never: "Never set on this bike. Adjust it once, and its season is drawn here.",
    ride: "ride",
    check: "check",
    baseline: "baseline",
    moves: "Every move",
    voidless: "What was struck out is left out.",
  },

  ride: {
    file: "Read a GPX file",
    fileHelp: "Read on this phone. Only distance, hours and climbing are kept, never where it went.",
    read: (points: number, day: string) => `${points} points${day === "" ? "" : `, ${day}`}`,
    problem: (why: string) => `This file cannot be taken: ${why}.`,
    source: "GPX",
  },

  doubt: {
    title: "Can that be so?",
    likely: {
      renewed: "Was the part changed? Then fit the new one first, so that its readings start again.",
      otherwise: "Was it measured in another way, or at another place?",
      figure: "A slip of the finger?",
    },
    again: "Correct it",
    fit: "To the parts",
    soIs: "It is so: record it",
  },

  wear: {
    title: "Wear",
    way: "Wear",
    none: "Nothing that wears is on this bike's record yet. Put its chain, rotors, pads or tyres on the list of parts, or measure one.",
    limit: (value: string, from: string) => `Limit ${value}, ${from}.`,
    noLimit: "No limit is known: enter the one marked on the part.",
    unmeasured: "Not measured yet.",
    one: "One reading. A second one, after some riding, makes a forecast.",
    left: (value: string) => `${value} to go`,
    past: "at its limit",
    measure: "Measure",
    change: "Change the part",
    readings: (count: number) => of(count, "reading", "readings"),
    since: (name: string, km: string) => `${name}, ${km} on this bike`,
    axis: { km: "Across: km of the part on this bike.", days: "Across: days since it was charged." },
    noPart: "no part on record",
  },

  parts: {
    inAll: (km: string, hours: string) => `${km} in all, ${hours}`,
    stretch: (bike: string, km: string) => `${bike}: ${km}`,
    until: (from: string, until: string) => `${from} to ${until}`,
    sinceDay: (from: string) => `since ${from}`,
    twice: "On two bikes at once by the record: take it off one of them.",
    move: "Move to another bike",
    moveHelp: "Taken off here and fitted there, with its markings. It keeps its own kilometres.",
    to: "To which bike",
    slot: "Where on it",
    moved: (name: string, bike: string) => `${name} is on ${bike}`,
    movedTo: (bike: string) => `moved to ${bike}`,
    loosened: "After it is on: tighten to its figure, look at the brake and the gears, and check the bike.",
    noOther: "There is no other bike on this phone.",
  },

  due: {
    title: "Due",
    show: "Show",
    shows: { all: "All", stop: "Stops", now: "Now", coming: "Coming", off: "Put off" },
    none: "Nothing is due by what is on this phone. Rides, readings and jobs done on the bikes bring things up here when their time comes.",
    noneSo: "None of these.",
    folding: (left: number) => `Reading ${of(left, "bike", "bikes")} more …`,
    on: (day: string) => `about ${day}`,
    source: "Where the interval comes from",
    toBike: "To the bike",
    toDue: "Done, or put off",
    done: "Done now",
    doneNote: "What was done",
    doneSaid: (title: string, bike: string) => `${title}: done on ${bike}`,
    snooze: "Put off",
    until: "Until",
    snoozeWhy: "Why it can wait",
    snoozed: (title: string, day: string) => `${title} put off until ${day}`,
    noSnooze: "What stops a ride cannot be put off.",
    past: "That day is past.",
    calendar: "As a calendar file",
    calendarSaid: (count: number) => of(count, "day", "days"),
    noDays: "Nothing due has a day yet.",
    own: "Our own intervals",
    notices: "Tell me while the app is open",
    noticesOff: "Stop telling me",
    noticesDenied: "The phone does not allow notices from this app.",
    notice: (bike: string, what: string) => `${bike}: ${what}`,
  },

  intervals: {
    title: "Intervals",
    help: "After how much each job comes up again. Common practice is where one starts; a maker's figure wins.",
    job: "Job",
    jobHelp: "Such as: wash and wax.",
    add: "Another job",
    own: "our own",
    ofBike: "this bike's own",
    or: " or ",
    never: "nothing set",
    km: "Distance",
    hours: "Hours",
    days: "Days",
    whichever: "Whichever comes first. Leave empty what does not count.",
    recorded: (title: string) => `${title}: interval recorded`,
    back: "As common practice again",
    forBike: "For this bike only",
  },
};

export type UseWords = typeof english;

export const w: UseWords = spoken("use", english);
