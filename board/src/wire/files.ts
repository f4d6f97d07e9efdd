import { ask } from "./ask.ts";

/** What became of files that were brought in. */
export interface BroughtIn {
  wearers: string[];
  designs: string[];
  traces: string[];
  fittings: string[];
  lays: string[];
  groups: string[];
  replaced: number;
  unchanged: number;
  /** Wearers that came in under another reference, since somebody else has theirs here. */
  renamed: { ref: string; now: string }[];
}

export const MOST_BYTES = 5_000_000;

export const exportPath = (names: boolean) => `api/export${names ? "?names=1" : ""}`;

export const bringIn = (file: Blob) => ask<BroughtIn>("api/import", "POST", file);
