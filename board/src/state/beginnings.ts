import type { Design } from "../wire/types.ts";
import { PLAIN } from "./steps.ts";

const [, HEM] = PLAIN;

/** What a new design begins with, by its name in `words.start.kinds`: block and steps; the rest is as usual. */
export const BEGINNINGS = {
  plain: { steps: PLAIN },
  shoulder: { block: { top: "shoulder" }, steps: [{ kind: "bodice-top", uid: "top" }, HEM!] },
  darted: { block: { type: "darted" }, steps: [] },
  circle: { block: { type: "circle-skirt" }, steps: [] },
  gored: { block: { type: "gored-skirt" }, steps: [] },
  straight: { block: { type: "straight-skirt" }, steps: [] },
} satisfies Record<string, Partial<Design>>;

export type Beginning = keyof typeof BEGINNINGS;
export const KINDS = Object.keys(BEGINNINGS) as Beginning[];
