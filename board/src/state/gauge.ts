import { apart } from "../tools/distance.ts";
import type { Edge, Piece, Point } from "../wire/types.ts";
import { cubics, nearest, pathLength } from "./curves.ts";
import { ends } from "./path.ts";

/** A place that is measured from: on a piece, in its own mm, or beside all pieces, in those of the paper. */
export interface Place {
  piece: string | null;
  at: Point;
  /** The edge that it lies on, and how far along it, mm. */
  edge?: { id: string; along: number };
}

export interface Span {
  piece: string;
  edge: string;
}

/** Where a point on the paper takes hold: a corner or notch that is near, else an edge that is near, else itself. */
export function caught(paper: Point, reach: number, pieces: readonly Piece[]): Place {
  let best: Place & { off: number } = { piece: null, at: paper, off: Infinity };
  for (const piece of pieces) {
    const at: Point = [paper[0] - piece.place[0], paper[1] - piece.place[1]];
    const [left, bottom, right, top] = piece.box;
    if (at[0] < left - reach || at[0] > right + reach || at[1] < bottom - reach || at[1] > top + reach) continue;
    if (best.piece === null) best = { piece: piece.id, at, off: Infinity };
    for (const point of signs(piece)) {
      // A corner or notch is taken before the edge that it is on.
      const off = apart(point, at) - reach;
      if (off <= 0 && off < best.off) best = { piece: piece.id, at: point, off };
    }
    for (const edge of piece.edges) {
      const found = nearest(edge.d, at);
      if (found.off <= reach && found.off < best.off) best = { piece: piece.id, at: found.at, off: found.off };
    }
  }
  const piece = pieces.find((known) => known.id === best.piece);
  const on = piece && edgeAt(piece, best.at);
  return { piece: best.piece, at: best.at, ...(on ? { edge: on } : {}) };
}

const signs = (piece: Piece): Point[] => [
  ...piece.edges.flatMap((edge) => ends(edge.d)),
  ...piece.notches.map((notch) => notch.from),
  ...piece.marks.map((mark) => mark.at),
];

function edgeAt(piece: Piece, at: Point): Place["edge"] {
  for (const edge of piece.edges) {
    const found = nearest(edge.d, at);
    if (found.off <= 0.05) return { id: edge.id, along: found.along };
  }
  return undefined;
}

/** Between two places, mm: straight, and along the edge where both lie on one. */
export function between(a: Place, b: Place, onPaper: (place: Place) => Point, pieces: readonly Piece[]): { straight: number; along: number | null } {
  const piece = a.piece !== null && a.piece === b.piece ? pieces.find((known) => known.id === a.piece) : undefined;
  const edge = piece?.edges.find((known) => nearest(known.d, a.at).off <= 0.05 && nearest(known.d, b.at).off <= 0.05);
  const along = edge ? Math.abs(nearest(edge.d, a.at).along - nearest(edge.d, b.at).along) : null;
  return { straight: apart(onPaper(a), onPaper(b)), along };
}

/** Degrees between two ways from a corner, 0 to 180. */
export function angle(a: Point, corner: Point, b: Point): number {
  const [u, v]: Point[] = [
    [a[0] - corner[0], a[1] - corner[1]],
    [b[0] - corner[0], b[1] - corner[1]],
  ];
  const [ux, uy] = u!;
  const [vx, vy] = v!;
  return (Math.atan2(Math.abs(ux * vy - uy * vx), ux * vx + uy * vy) * 180) / Math.PI;
}

/** Degrees between two edges where they meet; null where they do not. */
export function cornerAngle(a: string, b: string): number | null {
  for (const [own, ownWay] of tips(a)) {
    for (const [other, otherWay] of tips(b)) if (apart(own, other) < 0.5) return angle(ownWay, own, [otherWay[0] + own[0] - other[0], otherWay[1] + own[1] - other[1]]);
  }
  return null;
}

/** Both ends of a path, each with a place that it leads to from there. */
function tips(d: string): [Point, Point][] {
  const curves = cubics(d);
  const [first, last] = [curves[0], curves.at(-1)];
  if (!first || !last) return [];
  const onward = (points: Point[]): Point => points.find((point) => apart(point, points[0]!) > 1e-6) ?? points[0]!;
  return [
    [first[0], onward([...first])],
    [last[3], onward([...last].reverse())],
  ];
}

/** The edge of a span, while it is there. */
export const edgeOf = (span: Span, pieces: readonly Piece[]): Edge | undefined =>
  pieces.find((piece) => piece.id === span.piece)?.edges.find((edge) => edge.id === span.edge);

/** Length of edges together, mm. */
export const sum = (spans: readonly Span[], pieces: readonly Piece[]): number =>
  spans.reduce((total, span) => total + pathLength(edgeOf(span, pieces)?.d ?? "M0 0"), 0);
