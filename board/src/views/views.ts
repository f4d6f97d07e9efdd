import { words } from "../words.ts";
import Body from "./Body.svelte";
import Flat from "./Flat.svelte";
import Joined from "./Joined.svelte";
import Lay from "./Lay.svelte";
import Paper from "./Paper.svelte";
import Teach from "./Teach.svelte";
import type { View } from "./view.ts";

/** The ways to look at a design, in the order of their tabs. A new one is one more line. */
export const views: View[] = [
  { id: "flat", title: words.views.flat, component: Flat },
  { id: "joined", title: words.joined.title, component: Joined },
  { id: "body", title: words.body.title, component: Body },
  { id: "lay", title: words.lay.title, component: Lay },
  { id: "paper", title: words.paper.title, component: Paper },
  { id: "teach", title: words.teach.title, component: Teach },
];
