import { ask } from "./ask.ts";
import { begin } from "./job.ts";
import type { Point } from "./types.ts";

/** How the pieces of one cloth lie on it. Lengths in mm. */
export interface ClothLay {
  cloth: string;
  label: string;
  width_mm: number;
  assumed: boolean;
  folded: boolean;
  length_mm: number;
  to_buy_mm: number;
  cost: number | null;
  use: number;
  notes: string[];
  /** Number of its picture. */
  picture: number;
  search: LaySearch | null;
}

/** A search for a shorter lay, and the lay that it began with. */
export interface LaySearch {
  going_on: boolean;
  /** Of its time, used so far: 0 to 1. */
  share: number;
  seconds: number;
  /** How often a shorter lay was found: another number, another picture. */
  revision: number;
  first_mm: number;
  first_to_buy_mm: number;
  first_use: number;
}

/** A cloth that a piece is too wide for. */
export interface ClothRefused {
  cloth: string;
  label: string;
  width_mm: number;
  assumed: boolean;
  message: string;
  remedy: string;
}

/** What is bought beside the cloth, in words. */
export interface Notion {
  count: string;
  name: string;
  length: string;
  detail: string;
}

export interface Lays {
  lays: ClothLay[];
  refused: ClothRefused[];
  notions: Notion[];
}

export interface SheetCard {
  number: number;
  width: number;
  height: number;
  title: string;
}

/** A quarter of the size, full size on pages to be joined, full size on one large sheet. */
export type PrintScale = "quarter" | "full" | "sheet";
export type PaperName = "a4" | "a3" | "letter";

/** What a picture or print is of, and how it is told. `version` keeps an older picture from being shown for it. */
export interface Print {
  design: string;
  version: number;
  wearer: string;
  unit: "cm" | "in";
  /** Whether an audience looks on: then no sheet says whom it is for. */
  audience: boolean;
}

/** A piece as the planner laid it: x along the cloth, y across it from the fold or a selvage. Lengths in mm. */
export interface LaidPiece {
  piece: string;
  number: number;
  label: string;
  code: string;
  cut: string;
  on_fold: boolean;
  outline: Point[];
  box: [number, number, number, number];
  grain: [Point, Point];
}

/** Where a piece went from there: turned round about its middle if so, then shifted. */
export interface LayMove {
  piece: string;
  number: number;
  turned: boolean;
  x: number;
  y: number;
}

export interface LayNumbers {
  length_mm: number;
  to_buy_mm: number;
  use: number;
}

/** A lay as a hand has moved it. */
export interface HandLay {
  width_mm: number;
  folded: boolean;
  one_way: boolean;
  spacing_mm: number;
  pieces: LaidPiece[];
  moves: LayMove[];
  planned: LayNumbers;
  /** Null where it cannot be cut so; `faults` say why. */
  mine: LayNumbers | null;
  faults: string[];
}

function query(print: Print, more: Record<string, string> = {}): string {
  const units = print.unit === "in" ? "inches" : "cm";
  const told = { wearer: print.wearer, units, ...(print.audience ? { audience: "1" } : {}), version: String(print.version), ...more };
  return new URLSearchParams(told).toString();
}

const place = (print: Print) => `api/designs/${encodeURIComponent(print.design)}`;

export const lays = (print: Print) => ask<Lays>(`${place(print)}/lays?${query(print)}`);
export const layPicture = (print: Print, picture: number, revision = 0) => `${place(print)}/lays/${picture}.svg?${query(print, revision ? { found: String(revision) } : {})}`;
const handPath = (print: Print, picture: number) => `${place(print)}/lays/${picture}/hand?${query(print)}`;
export const handLay = (print: Print, picture: number) => ask<HandLay>(handPath(print, picture));
export const moveByHand = (print: Print, picture: number, moves: LayMove[]) => ask<HandLay>(handPath(print, picture), "PUT", { moves });
export const beginAnew = (print: Print, picture: number) => ask<HandLay>(handPath(print, picture), "DELETE");
const searchPath = (print: Print, picture: number) => `${place(print)}/lays/${picture}/search?${query(print)}`;
export const lookForLay = (print: Print, picture: number, seconds: number) => ask<ClothLay>(searchPath(print, picture), "POST", { seconds });
export const watchLay = (print: Print, picture: number) => ask<ClothLay>(searchPath(print, picture));
export const stopLay = (print: Print, picture: number) => ask<ClothLay>(searchPath(print, picture), "DELETE");
export const sheets = (print: Print, scale: PrintScale, paper: PaperName) => ask<{ sheets: SheetCard[] }>(`${place(print)}/sheets?${query(print, { scale, paper })}`);
export const sheetPicture = (print: Print, scale: PrintScale, paper: PaperName, number: number) => `${place(print)}/sheets/${number}.svg?${query(print, { scale, paper })}`;
export const printPath = (print: Print, scale: PrintScale, paper: PaperName) => `${place(print)}/print.pdf?${query(print, { scale, paper })}`;
export const signOffPath = (print: Print, paper: PaperName) => `${place(print)}/sign-off.pdf?${query(print, { paper })}`;
/** Sheets to draw the design by hand; for a class where it is counted. */
export const beginHand = (print: Print, paper: PaperName, count: { learners: number; spares: number } | null) =>
  begin<{ pages: number }>(`${place(print)}/hand`, { wearer: print.wearer, units: print.unit === "in" ? "inches" : "cm", paper, audience: print.audience, ...count });
export const orderPath = (print: Print, paper: PaperName) => `${place(print)}/order-of-work.pdf?${query(print, { paper })}`;
