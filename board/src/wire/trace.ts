import { ask } from "./ask.ts";
import type { PaperName, PrintScale } from "./paper.ts";
import type { Edge, Finding, Piece, Point, Saved } from "./types.ts";

/** An edge as far as it is traced; it begins where the one before it ends. */
export interface TracedEdge {
  points: Point[];
  kind: Edge["kind"] | null;
  line: string;
  /** Truing leaves it as it was drawn. */
  as_drawn?: boolean;
}

export interface TracedPiece {
  id: string;
  label: string;
  whole: boolean;
  closed: boolean;
  edges: TracedEdge[];
  levels: { id: string; points: Point[] }[];
  grain: [Point, Point] | null;
  notches: { at: Point; count: number }[];
  marks: { id: string; at: Point }[];
}

/** An edge by its piece and its number, from 1. */
export interface EdgeRef {
  piece: string;
  edge: number;
}

export interface TracedSeam {
  line: string;
  /** Several edges lie one after another along the other side, which is divided where they meet. */
  a: EdgeRef | EdgeRef[];
  b: EdgeRef | EdgeRef[];
  /** How much longer b is meant to be than a; below 0: a is the longer one. */
  ease_mm?: number;
}

/** What says how large the paper is in the picture. */
export type Measured = { kind: "length"; ends: [Point, Point]; mm: number } | { kind: "sheet"; corners: [Point, Point, Point, Point]; width_mm: number; height_mm: number };

/** A `panelwright-trace/1` object: places are pixels of the picture, y down. */
export interface Trace {
  format: "panelwright-trace/1";
  ref: string;
  title: string;
  picture: { width: number; height: number } | null;
  measured: Measured | null;
  scale: 1 | 4;
  allowance_mm: number;
  allowance_centimetre: "garment" | "paper";
  pieces: TracedPiece[];
  seams: TracedSeam[];
}

export interface Partner extends TracedSeam {
  score: number;
  reason: string;
}

/** The block that was traced, in mm at full scale. */
export interface OwnBlock {
  trued: boolean;
  pieces: Piece[];
  findings: Finding[];
  partners: Partner[];
  /** How many times as large differences are drawn. */
  larger: number;
  changes: TruingChange[];
}

/** What truing changes of an edge, or would if it were not left as it was drawn. */
export interface TruingChange {
  piece: string;
  edge: string;
  /** As it was traced, from 1. */
  number: number;
  most_mm: number;
  at: Point;
  taken: boolean;
  /** The old line where it is trued, and else the one that truing would draw; null where the edge is left. */
  other: string | null;
}

/** What is asked of it: for whom, in which unit, trued or as it was drawn. */
export interface Asked {
  wearer: string | null;
  unit: "cm" | "in";
  true: boolean;
}

export const emptyTrace = (ref: string, title: string): Trace => ({
  format: "panelwright-trace/1",
  ref,
  title,
  picture: null,
  measured: null,
  scale: 4,
  allowance_mm: 0,
  allowance_centimetre: "garment",
  pieces: [],
  seams: [],
});

/** A document may leave out what is usual. */
function complete(saved: Saved<Trace>): Saved<Trace> {
  const { document } = saved;
  const edge = (one: TracedEdge): TracedEdge => ({ ...one, kind: one.kind ?? null, line: one.line ?? "" });
  const piece = (one: TracedPiece): TracedPiece => {
    const usual = { label: "", whole: false, closed: false, levels: [], grain: null, notches: [], marks: [] };
    return { ...usual, ...one, edges: one.edges.map(edge) };
  };
  const whole = { ...emptyTrace(document.ref, ""), ...document };
  return { ...saved, document: { ...whole, pieces: whole.pieces.map(piece) } };
}

const place = (ref: string) => `api/traces/${encodeURIComponent(ref)}`;

function query(asked: Asked, more: Record<string, string> = {}): string {
  const told = { units: asked.unit === "in" ? "inches" : "cm", ...(asked.wearer ? { wearer: asked.wearer } : {}), ...(asked.true ? { true: "1" } : {}), ...more };
  return new URLSearchParams(told).toString();
}

export const trace = async (ref: string) => complete(await ask<Saved<Trace>>(place(ref)));

/** `basedOn` null: there must be none of this reference yet, or the server refuses with status 409. */
export const saveTrace = async (document: Trace, what: string, basedOn: number | null) =>
  complete(await ask<Saved<Trace>>(place(document.ref), "PUT", { document, what, based_on: basedOn }));

export const moveTrace = async (ref: string, way: "undo" | "redo") => complete(await ask<Saved<Trace>>(`${place(ref)}/${way}`, "POST"));

export const removeTrace = (ref: string) => ask<void>(place(ref), "DELETE");

export const ownBlock = (ref: string, asked: Asked) => ask<OwnBlock>(`${place(ref)}/own?${query(asked)}`);

export const tablePath = (ref: string) => `${place(ref)}/table.json`;

export const tracePrintPath = (ref: string, version: number, asked: Asked, scale: PrintScale, paper: PaperName) =>
  `${place(ref)}/print.pdf?${query(asked, { scale, paper, version: String(version) })}`;
