import { words } from "../words.ts";
import { Idle } from "./select/idle.ts";
import type { Tool } from "./tool.ts";

/** The tools of the flat drawing, in the order in which they are offered. A new tool is one more line. */
export const tools: Tool[] = [{ id: "select", title: words.flat.select, begin: () => new Idle() }];
