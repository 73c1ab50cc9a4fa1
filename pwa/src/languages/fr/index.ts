/** French. */

import type { Catalogue } from "../spoken";
import { app } from "./app";
import { build } from "./build";
import { drawing } from "./drawing";
import { heard } from "./heard";
import kernel from "./kernel.json";
import { problems } from "./problems";
import { sensors } from "./sensors";
import { team } from "./team";
import { use } from "./use";

export const catalogue: Catalogue = { files: { app, build, use, team, drawing, problems, sensors, heard }, kernel };
