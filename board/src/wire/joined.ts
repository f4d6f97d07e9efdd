import { ask } from "./ask.ts";

/** From a piece's own coordinates: mirror x where `mirrored`, turn by `angle` (radians, anticlockwise), shift by mm. */
export interface Motion {
  angle: number;
  x: number;
  y: number;
  mirrored?: boolean;
}

export interface PlacedPiece extends Motion {
  piece: string;
}

/** Side b as it lies at a share of the seam. */
export interface Joint extends Motion {
  share: number;
  /** Largest distance between partner places over the stretch already walked, mm. */
  gap_mm: number;
  /** Between the lines that run on at the nearer end, as the pieces lie now: above 0 a dip, below 0 a peak. */
  degrees: number | null;
}

export interface Joined {
  seam: string;
  a: string[];
  b: string[];
  still: PlacedPiece[];
  moved: PlacedPiece[];
  ends: { lines: string[]; degrees: number | null }[];
  /** The share at which both sides lie across each other and gape least. */
  opens_at: number;
  steps: Joint[];
}

/** `version` keeps an older answer from being taken for it. */
export const joined = (design: string, version: number, wearer: string, seam: string) =>
  ask<Joined>(`api/designs/${encodeURIComponent(design)}/joined?${new URLSearchParams({ wearer, seam, version: String(version) }).toString()}`);
