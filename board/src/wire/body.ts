import { ask } from "./ask.ts";

export type Hand = "right" | "left" | "both";

/** `height` above the waist; `gap` by which the closed edges stand apart there, `overlap` by which they lap; mm. */
export interface Level {
  id: string;
  label: string;
  height: number;
  gap?: number;
  overlap?: number;
}

/** A piece on one side of the wearer: the same places on the paper and on the body, mm. */
export interface Panel {
  piece: string;
  hand: Hand;
  flat: number[];
  body: number[];
  triangles: number[];
}

export interface BodyLine {
  line: string;
  kind: "edge" | "level";
  piece: string;
  hand: Hand;
  points: number[];
}

/** x runs to the wearer's right, y to the front, z up from the waist; mm. */
export interface Worn {
  torso: { points: number[]; triangles: number[] };
  panels: Panel[];
  lines: BodyLine[];
  hanging: string[];
  /** Levels that an edge of the garment crosses: nothing of one girth goes round there. */
  crossed: Level[];
}

/** `version` keeps an older answer from being taken for it. */
export const worn = (design: string, version: number, wearer: string) =>
  ask<Worn>(`api/designs/${encodeURIComponent(design)}/body?${new URLSearchParams({ wearer, version: String(version) }).toString()}`);
