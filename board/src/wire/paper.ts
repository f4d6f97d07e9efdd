import { ask } from "./ask.ts";
import { begin } from "./job.ts";
import type { Point } from "./types.ts";

export interface LayNumbers {
  length_mm: number;
  to_buy_mm: number;
  use: number;
}

/** How the pieces of one cloth lie on it, as they are cut by. Lengths in mm. */
export interface ClothLay extends LayNumbers {
  cloth: string;
  label: string;
  width_mm: number;
  assumed: boolean;
  folded: boolean;
  cost: number | null;
  notes: string[];
  /** Number of its picture. */
  picture: number;
  /** Who laid it: the planner at once, a search, or a hand. */
  made: "first" | "found" | "hand";
  /** Another one, another picture; empty for the first lay. */
  revision: string;
  /** Another one: a hand has moved pieces, or begins with another lay. */
  hand_revision: string;
  first: LayNumbers;
  /** The planner's: the shortest that a search has found, or the first. */
  found: LayNumbers;
  search: LaySearch | null;
  /** Why no lay can be shorter, in a sentence; null where one may be. */
  shortest: string | null;
  /** What is kept for an earlier state, in a sentence. */
  earlier: string | null;
}

/** The last search for a shorter lay. */
export interface LaySearch {
  going_on: boolean;
  /** Of its computing time, used so far: 0 to 1. */
  share: number;
  /** Computing time; null for a search of an earlier day. */
  seconds: number | null;
  /** By the clock, s. */
  elapsed: number | null;
  /** Why what was found could not be kept. */
  fault: string;
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
  /** Why what is kept of them is not used, or nothing. */
  fault: string;
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

/** A lay as a hand has moved it. */
export interface HandLay {
  /** What further moves are based on. */
  revision: string;
  width_mm: number;
  folded: boolean;
  one_way: boolean;
  spacing_mm: number;
  pieces: LaidPiece[];
  moves: LayMove[];
  can_undo: boolean;
  can_redo: boolean;
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
export const layPicture = (print: Print, picture: number, revision = "") => `${place(print)}/lays/${picture}.svg?${query(print, revision ? { found: revision } : {})}`;
const handPath = (print: Print, picture: number, way = "") => `${place(print)}/lays/${picture}/hand${way}?${query(print)}`;
export const handLay = (print: Print, picture: number) => ask<HandLay>(handPath(print, picture));
/** Single moves, one after the other, made on what was told with that revision. */
export const moveByHand = (print: Print, picture: number, moves: LayMove[], revision: string) => ask<HandLay>(handPath(print, picture), "POST", { moves, based_on: revision });
export const takeBack = (print: Print, picture: number, way: "undo" | "redo") => ask<HandLay>(handPath(print, picture, `/${way}`), "POST");
export const beginAnew = (print: Print, picture: number) => ask<HandLay>(handPath(print, picture), "DELETE");
const searchPath = (print: Print, picture: number) => `${place(print)}/lays/${picture}/search?${query(print)}`;
export const lookForLay = (print: Print, picture: number, seconds: number) => ask<ClothLay>(searchPath(print, picture), "POST", { seconds });
export const watchLay = (print: Print, picture: number) => ask<ClothLay>(searchPath(print, picture));
export const stopLay = (print: Print, picture: number) => ask<ClothLay>(searchPath(print, picture), "DELETE");
export const forgetEarlier = (print: Print, picture: number) => ask<ClothLay>(`${place(print)}/lays/${picture}/earlier?${query(print)}`, "DELETE");
export const laysPath = (print: Print, paper: PaperName) => `${place(print)}/lays.pdf?${query(print, { paper })}`;
export const sheets = (print: Print, scale: PrintScale, paper: PaperName) => ask<{ sheets: SheetCard[] }>(`${place(print)}/sheets?${query(print, { scale, paper })}`);
export const sheetPicture = (print: Print, scale: PrintScale, paper: PaperName, number: number) => `${place(print)}/sheets/${number}.svg?${query(print, { scale, paper })}`;
export const printPath = (print: Print, scale: PrintScale, paper: PaperName) => `${place(print)}/print.pdf?${query(print, { scale, paper })}`;
export const signOffPath = (print: Print, paper: PaperName) => `${place(print)}/sign-off.pdf?${query(print, { paper })}`;
/** A class: so many learners who all draw from the wearer's measurements, or wearers who draw from their own. */
export type ClassAsked = ({ learners: number } | { wearers: string[] }) & { spares: number };

/** Sheets to draw the design by hand; for a class where one is told. */
export const beginHand = (print: Print, paper: PaperName, count: ClassAsked | null) =>
  begin<{ pages: number }>(`${place(print)}/hand`, { wearer: print.wearer, units: print.unit === "in" ? "inches" : "cm", paper, audience: print.audience, ...count });
export const orderPath = (print: Print, paper: PaperName) => `${place(print)}/order-of-work.pdf?${query(print, { paper })}`;
