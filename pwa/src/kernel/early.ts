/** A script of its own in the page, first and small: while the rest of the program is read, the engine starts. */

import { beginEarly } from "./starting";

beginEarly();
