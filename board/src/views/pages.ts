import { words } from "../words.ts";
import Buy from "./Buy.svelte";
import Measure from "./Measure.svelte";
import Start from "./Start.svelte";
import Trace from "./Trace.svelte";
import type { Page } from "./view.ts";
import Workbench from "./Workbench.svelte";

/** The pages. A new one is one more line: `#/ID` leads to it. */
export const pages: Page[] = [
  { id: "start", title: words.workroom, component: Start },
  { id: "measure", title: words.measure.title, component: Measure },
  { id: "buy", title: words.group.page, component: Buy },
  { id: "trace", title: words.trace.title, component: Trace, needsRef: true },
  { id: "make", title: words.name, component: Workbench, needsRef: true },
];
