import { words } from "../words.ts";
import { Idle as Drawing } from "./draw/idle.ts";
import { Idle as Measuring } from "./measure/idle.ts";
import { Idle as Laying } from "./picture/idle.ts";
import { Idle as Choosing } from "./select/idle.ts";
import type { Tool } from "./tool.ts";

/** The tools of the flat drawing, in the order in which they are offered. A new tool is one more line. */
export const tools: Tool[] = [
  { id: "select", title: words.flat.select, begin: () => new Choosing() },
  { id: "draw", title: words.draw.tool, help: words.draw.help, fine: true, begin: () => new Drawing() },
  { id: "measure", title: words.tape.tool, help: words.tape.help, begin: () => new Measuring() },
  { id: "picture", title: words.picture.tool, help: words.picture.help, begin: () => new Laying() },
];
