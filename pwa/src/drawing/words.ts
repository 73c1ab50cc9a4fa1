/** Every word on and about the bench's drawings. Apart from the app's other words, so that it is fetched with the drawings. */

import { told } from "../languages/saying";
import { named, spoken } from "../languages/spoken";

export const english = {
  times: (factor: number) => `×${factor}`,
  drawn: (what: string, factor: number) => (factor === 1 ? `${what} to scale` : `${what} drawn ×${factor}`),

  frontEnd: (x: string | null, y: string | null) =>
    told(
      "Front end from the drive side to scale: head tube, spacers, stem and bar, measured from the bottom bracket.",
      x !== null && y !== null && `Bar ${x} ahead of it and ${y} above.`,
    ),
  transfer: (x: string | null, y: string | null, miss: string | null) =>
    told(
      "Front end to scale: the target position over the nearest that can be built.",
      x !== null && y !== null && `Target ${x} ahead of the bottom bracket and ${y} above.`,
      miss !== null ? `The nearest misses it by ${miss}.` : "No build worked out yet.",
    ),
  saddle: (height: string | null, shift: string | null) =>
    told(
      "Saddle and post from the drive side to scale, the old position thin, the new one blue.",
      height !== null && `New saddle height ${height}.`,
      shift !== null && `Clamp ${shift} along the rails from the middle.`,
    ),
  steering: (trail: string | null, gap: string | null) =>
    told(
      "Fork and front wheel from the drive side to scale, the steering axis drawn down to the ground.",
      trail !== null && `Trail ${trail}.`,
      gap !== null && `Toe to tyre ${gap}.`,
    ),
  trail: "trail",
  toe: "toe",
  tilt: (tilt: string | null, factor: number) =>
    told(
      "The bike before, thin, and after, heavy, turned about the bottom bracket.",
      tilt !== null && `Tilt ${tilt}${factor === 1 ? "" : `, drawn ${factor} times as large`}.`,
    ),
  hose: (slack: string | null, side: string | null) =>
    told(
      "Bar from above, straight and turned to both ends, with the line from port to tie.",
      slack !== null &&
        (side === null ? `It needs ${slack} of slack.` : `It needs ${slack} of slack, most when turned ${side}.`),
    ),
  left: "left",
  right: "right",
  front: "front",
  rear: "rear",
  port: "port",
  needs: (slack: string) => `needs ${slack}`,
  has: (slack: string) => `has ${slack}`,
  tie: "tie",

  chainLine: (pitches: string | null, length: string | null) =>
    told(
      "Largest ring and largest cog to scale with the chain round both.",
      pitches !== null && `${pitches} pitches${length === null ? "" : `, ${length}`}.`,
    ),
  pitches: (count: string) => `${count} pitches`,
  chainWear: (elongation: string | null, limit: string | null, factor: number) =>
    told(
      "A new chain over the worn one, from the same pin.",
      elongation !== null &&
        `Elongation ${elongation}, drawn ${factor} times as large${limit === null ? "" : `, limit ${limit}`}.`,
    ),
  newChain: "new",
  wornChain: (factor: number) => `this chain, wear ×${factor}`,
  limit: "limit",
  ladder: (rings: string, low: string, high: string) =>
    told(
      `Gears on a ruled ladder, one line a ring (${rings}), equal steps equally far apart.`,
      low !== "" && `From ${low} to ${high} a turn.`,
    ),
  ladderNothing: "A ladder of gears: give rings and cogs.",
  teeth: (count: number) => `${count} teeth`,
  aTurn: "metres a turn of the cranks",
  climb: (gradient: string | null, speed: string | null, cadence: string | null, least: string | null) =>
    told(
      "The slope to scale and the cadence on a ruled scale.",
      gradient !== null && `Gradient ${gradient}.`,
      speed !== null && `Speed ${speed}.`,
      cadence !== null && `Cadence ${cadence}${least === null ? "" : `, wanted at least ${least}`}.`,
    ),
  least: (value: string) => `least ${value}`,
  wantedCog: (cog: string) => `wanted cog ${cog}`,
  lowestGear: (ring: string, cog: string) => `${ring} × ${cog} teeth`,
  hanger: (toe: string | null, camber: string | null) =>
    told(
      "Rim from the drive side with the gauge's four gaps.",
      toe !== null && camber !== null && `Hanger turned ${toe} seen from above and ${camber} seen from behind.`,
    ),
  spread: (spread: string, tolerance: string | null) =>
    tolerance === null ? `spread ${spread}` : `spread ${spread} of ${tolerance}`,
  leanDrawn: (factor: number) => (factor === 1 ? "to scale" : `lean drawn ×${factor}`),
  fromAbove: "from above",
  fromBehind: "from behind",

  rollout: (diameter: string | null, round: string | null, measured: string | null) =>
    told(
      "The wheel at both ends of one turn on the ground, to scale.",
      diameter !== null && `Diameter ${diameter}.`,
      round !== null && `Circumference ${round}.`,
      measured !== null && `Measured ${measured}.`,
    ),
  measured: "measured",
  rimFit: (tyre: string | null, rim: string | null, left: string | null) =>
    told(
      "Tyre on its rim in section, between the frame's two sides, to scale.",
      tyre !== null && `Tyre ${tyre}`,
      rim !== null && `on a rim ${rim} inside.`,
      left !== null && `Room each side ${left}.`,
    ),
  eachSide: (room: string) => `${room} each side`,
  tyreDrop: (drop: string | null, target: string | null) =>
    told(
      "Tyre in section, unloaded thin, loaded heavy, to scale.",
      drop !== null && `It drops ${drop} of its height${target === null ? "" : `; wanted ${target}`}.`,
    ),
  wanted: "wanted",
  pressures: (what: string) => `Pressure on a ruled scale. ${what}`,
  cap: "cap",
  before: "now",
  onTheDay: "on the day",
  toSet: "set",
  start: "start",
  after: "after",
  topUp: "top up",
  toPutIn: (volume: string) => `${volume} to put in`,
  sealant: (volume: string | null, left: string | null) =>
    told(
      "Days since the last sealant on a ruled scale, with the day to top up.",
      volume !== null && `${volume} to put in.`,
      left !== null && `Top up in ${left}.`,
    ),
  nothingYet: "Nothing worked out yet.",
  spoke: (length: string | null, crosses: string | null) =>
    told(
      "Hub flange and rim from the side to scale, one spoke blue.",
      crosses !== null && `Crosses ${crosses}.`,
      length !== null && `Spoke ${length}.`,
    ),
  string: (length: string | null, tone: string | null, tension: string | null) =>
    told(
      "The spoke as a string sounding between its ends.",
      length !== null && `Free length ${length}.`,
      tone !== null && `Tone ${tone}.`,
      tension !== null && `Tension ${tension}.`,
    ),
  rose: (left: string | null, right: string | null, off: number) =>
    told(
      "Spoke tensions round the wheel, left and right, each with its mean and the band of 20 % round it.",
      left !== null && `Mean left ${left}.`,
      right !== null && `Mean right ${right}.`,
      off > 0 && `${off} outside the band.`,
    ),
  bracing: (angle: string) => `bracing ${angle}`,
  mean: "mean",

  adaptor: (setting: string | null, joint: string | null) =>
    told(
      "Wrench with its adaptor from above, to scale.",
      joint !== null && `Wanted at the joint ${joint}.`,
      setting !== null && `Set the wrench to ${setting}.`,
    ),
  setTo: (value: string) => `set ${value}`,
  joint: "joint",
  torqueCheck: (applied: string | null, low: string | null, high: string | null) =>
    told(
      "Torque on a ruled scale with the band allowed.",
      applied !== null && `Applied ${applied}.`,
      low !== null && high !== null && `Allowed ${low} to ${high}.`,
    ),
  lowest: (value: string) => `low ${value}`,
  highest: (value: string) => `high ${value}`,
  proof: (use: string | null) =>
    told("Use of the bolt's proof load on a ruled scale, care from 75 %, stop from 100 %.", use !== null && `Used ${use}.`),
  clamp: (force: string) => `clamp force ${force}`,
  proofUse: (value: string) => `${value} of proof`,

  weight: (total: string | null, goal: string | null, sd: string | null) =>
    told(
      "Weight of the parts laid end to end on a ruled scale.",
      total !== null && `Total ${total}${sd === null ? "" : `, give or take ${sd}`}.`,
      goal !== null && `Goal ${goal}.`,
    ),
  total: "total",
  goal: "goal",
  base: "base",
  toSpare: (mass: string) => `${mass} to spare`,
  over: (mass: string) => `${mass} over`,
  missing: (slots: string) => `missing: ${slots}`,
  dashedClaimed: "Dashed: claimed, not weighed.",
  swaps: (total: string | null, goal: string | null, cost: string | null) =>
    told(
      "The weight with the parts chosen, laid end to end on a ruled scale.",
      total !== null && `Total ${total}.`,
      goal !== null && `Goal ${goal}.`,
      cost !== null && `Cost ${cost}.`,
    ),
  forecast: (limit: string | null, at: string | null, from: string | null, to: string | null) =>
    told(
      "Readings, the line through them and the limit.",
      limit !== null && `Limit ${limit}.`,
      at !== null && `Reached at ${at}`,
      from !== null && to !== null && `between ${from} and ${to}.`,
    ),
  now: "now",
  stopping: (distance: string | null, reference: string | null) =>
    told(
      "Stopping distance on a ruled scale.",
      distance !== null && `Stopped in ${distance}.`,
      reference !== null && `Test distance ${reference}.`,
    ),
  stoppedIn: "stopped in",
  reference: "test",
  atTestSpeed: "at test speed",

  how: {
    title: "How to measure it",
    drawn: (label: string) => `Where “${label}” is measured: the place is drawn in blue.`,
    texts: named({
      "saddle-tilt": "Bike level. Lay a straight board on the saddle and the gauge on the board; nose up counts +.",
      "bar-ahead":
        "Bike level: plumb lines through the bottom bracket’s centre and the bar’s centre, the distance between them.",
      "bar-above": "Bike level: height of the bar’s centre from the floor, less that of the bottom bracket’s centre.",
      "bar-tilt": "Bike level, gauge along the straight end of the drop. Always the same place, or two readings say nothing.",
      crank: "Bottom-bracket centre to the pedal axle’s centre. It is mostly stamped on the crank’s back.",
      "lever-reach": "Level from the bar to the front of the lever, where the finger lies. Left and right at the same place.",
      "lever-height": "Bike level, bars straight: from the floor to the top of the hood. Left and right at the same place.",
      "lever-angle": "Bike level, gauge along the top of the hood. Left and right the same way.",
      rotor: "Micrometer on the braking track, at four places; the thinnest counts. The maker’s least is marked on it.",
      pad: "Wheel out, the lining by calliper at its thinnest. With or without the plate: as the maker’s figure says.",
      chain: "By a chain gauge, or a ruler along 24 links under tension: how much longer than new, in per cent.",
      tread: "Depth of a groove or of the wear mark, in the middle of the tyre, by a depth gauge.",
      pressure: "Tyre cold, gauge straight on the valve. Read it after it was pressed on, not while it hisses.",
    }),
  },
};

export type DrawingWords = typeof english;

export const drawingWords: DrawingWords = spoken("drawing", english);
