import { words } from "../words.ts";
import Measure from "./Measure.svelte";
import Start from "./Start.svelte";
import type { Page } from "./view.ts";
import Workbench from "./Workbench.svelte";

/** The pages. A new one is one more line: `#/ID` leads to it. */
export const pages: Page[] = [
  { id: "start", title: words.workroom, component: Start },
  { id: "measure", title: words.measure.title, component: Measure },
  { id: "make", title: words.name, component: Workbench },
];
