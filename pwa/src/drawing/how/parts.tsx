/** Parts close up, each with the place where it is measured: lever, bar, spacers, rotor, pad, chain, tread, valve. */

import type { ComponentChildren } from "preact";
import { Dimension } from "../dimension";
import { Axis, Drawing, type Plan } from "../plan";
import { Angle } from "./angle-mark";

const HEIGHT = 170;
const sheet: Plan = { width: 360, height: HEIGHT, scale: 1, at: (x, y) => ({ x, y: -y }) };
const blue = { text: "", tone: "blue" } as const;

export type Part =
  | "lever-reach"
  | "lever-height"
  | "lever-angle"
  | "bar-tilt"
  | "spacers"
  | "rotor"
  | "pad"
  | "chain"
  | "tread"
  | "pressure";

export function PartHow({ part, says }: { part: Part; says: string }) {
  const Drawn = PARTS[part];
  return (
    <Drawing plan={sheet} says={says}>
      <Drawn />
    </Drawing>
  );
}

const PARTS: Record<Part, () => ComponentChildren> = {
  "lever-reach": () => (
    <>
      <Hood />
      <Dimension from={{ x: 176, y: 116 }} to={{ x: 247, y: 116 }} {...blue} />
      <path class="extension" d="M176 92 V122 M247 108 V122" />
    </>
  ),
  "lever-height": () => (
    <>
      <Hood />
      <path class="extension" d="M270 34 H322" />
      <Dimension from={{ x: 316, y: 158 }} to={{ x: 316, y: 34 }} {...blue} />
      <path class="ground" d="M20 158 H340" />
    </>
  ),
  "lever-angle": () => (
    <>
      <Hood />
      <path class="member member-blue" d="M172 58 L276 30" />
      <Axis from={{ x: 172, y: 58 }} to={{ x: 330, y: 58 }} />
      <Angle at={{ x: 172, y: 58 }} radius={120} from={0} to={-15} />
    </>
  ),
  "bar-tilt": () => (
    <>
      <Hood />
      <path class="member member-blue" d="M96 150 L178 138" />
      <Axis from={{ x: 96, y: 150 }} to={{ x: 300, y: 150 }} />
      <Angle at={{ x: 96, y: 150 }} radius={120} from={0} to={-8} />
    </>
  ),
  spacers: () => (
    <>
      <path class="member member-thin" d="M128 126 H232 V166 H128 Z" />
      {[0, 1, 2].map((row) => (
        <path key={row} class="member" d={`M138 ${66 + row * 20} H222 V${86 + row * 20} H138 Z`} />
      ))}
      <path class="member member-thin" d="M132 18 H228 V66 H132 Z M228 30 H330 V54 H228" />
      <Dimension from={{ x: 100, y: 126 }} to={{ x: 100, y: 66 }} {...blue} />
      <path class="extension" d="M134 66 H94 M126 126 H94" />
    </>
  ),
  rotor: () => (
    <>
      <path class="member" d="M172 10 H186 V150 H172 Z" />
      <path class="stay" d="M172 10 H186 V150 H172 Z" />
      <path class="extension" d="M172 66 H120 M186 66 H238" />
      <path class="member member-blue" d="M112 60 H170 V72 H112 M246 60 H188 V72 H246" />
      <path class="dimension-blue dimension-line" d="M112 60 V154 H246 V60" />
    </>
  ),
  pad: () => (
    <>
      <path class="member" d="M120 20 H142 V150 H120 Z" />
      <path class="member" d="M142 34 H178 V136 H142 Z" />
      <path class="stay" d="M142 34 H178 V136 H142 Z" />
      <path class="member member-thin" d="M214 6 H226 V164 H214 Z" />
      <Dimension from={{ x: 142, y: 156 }} to={{ x: 178, y: 156 }} {...blue} />
      <path class="extension" d="M142 138 V162 M178 138 V162" />
    </>
  ),
  chain: () => (
    <>
      {Array.from({ length: 12 }, (_, i) => 24 + i * 26).map((x, i) => (
        <path
          key={x}
          class="member member-thin"
          d={`M${x} ${i % 2 === 0 ? 62 : 65} H${x + 26} M${x} ${i % 2 === 0 ? 82 : 79} H${x + 26}`}
        />
      ))}
      {Array.from({ length: 13 }, (_, i) => 24 + i * 26).map((x) => (
        <circle key={x} class="pin" cx={x} cy="72" r="3.4" />
      ))}
      <Dimension from={{ x: 24, y: 120 }} to={{ x: 336, y: 120 }} {...blue} />
      <path class="extension" d="M24 86 V126 M336 86 V126" />
      <path class="dimension-blue dimension-line" d="M20 34 H4 M10 29 L4 34 L10 39 M340 34 H356 M350 29 L356 34 L350 39" />
    </>
  ),
  tread: () => (
    <>
      <path class="member" d="M40 150 C70 40 290 40 320 150" />
      <path class="member" d="M150 71 V92 H168 V68 M196 68 V92 H214 V71" />
      <path class="extension" d="M168 68 H250 M168 92 H250" />
      <Dimension from={{ x: 244, y: 92 }} to={{ x: 244, y: 66 }} {...blue} />
      <path class="member member-blue" d="M130 50 H188 M159 20 V90" />
    </>
  ),
  pressure: () => (
    <>
      <path class="member" d="M20 120 C120 96 240 96 340 120" />
      <path class="member member-thin" d="M20 150 C120 126 240 126 340 150" />
      <path class="member" d="M174 104 V60 H186 V104" />
      <path class="member member-blue" d="M168 62 H192 V46 H168 Z" />
      <circle class="member member-blue" cx="236" cy="38" r="30" />
      <path class="member member-blue" d="M192 54 H207 M236 38 L252 22" />
    </>
  ),
};

/** A drop bar from the side with its hood and lever. */
function Hood() {
  return (
    <g>
      <path class="member" d="M96 60 H172 C250 60 250 138 176 138 L96 150" />
      <path class="member member-filled" d="M172 58 L250 36 C262 24 276 26 276 36 C276 54 262 66 246 74 L216 84 Z" />
      <path class="member" d="M252 70 C262 96 256 126 240 152" />
    </g>
  );
}
