import { words } from "../words.ts";
import Start from "./Start.svelte";
import type { Page } from "./view.ts";
import Workbench from "./Workbench.svelte";

/** The pages. A new one is one more line: `#/ID` leads to it. */
export const pages: Page[] = [
  { id: "start", title: words.workroom, component: Start },
  { id: "make", title: words.name, component: Workbench },
];
