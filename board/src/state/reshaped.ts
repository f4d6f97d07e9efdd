import { apart } from "../tools/distance.ts";
import type { EdgeRef, Trace, TracedEdge, TracedPiece } from "../wire/trace.ts";
import type { Point } from "../wire/types.ts";
import { edgesOfBoth, renamed } from "./seam-side.ts";

/** A closed piece that is given points and corners, or loses them. Edges are numbered from 0 here, in seams from 1. */

/** Where a place meets the outline of a closed piece: on which edge, after which of its points. */
export interface Met {
  piece: string;
  edge: number;
  after: number;
  at: Point;
}

/** The nearest place on an edge of a closed piece within a reach; null where none is. */
export function metOutline(trace: Trace, to: Point, reach: number): Met | null {
  let found: Met | null = null;
  let least = reach;
  for (const piece of trace.pieces) {
    if (!piece.closed) continue;
    piece.edges.forEach((one, edge) => {
      for (let after = 0; after + 1 < one.points.length; after++) {
        const at = onStretch(to, one.points[after]!, one.points[after + 1]!);
        const off = apart(to, at);
        if (off <= least) [found, least] = [{ piece: piece.id, edge, after, at }, off];
      }
    });
  }
  return found;
}

/** One more point in an edge. */
export function withPointIn(trace: Trace, { piece, edge, after }: Met, at: Point): Trace {
  return changed(trace, piece, (edges) => edges.map((one, k) => (k === edge ? { ...one, points: [...one.points.slice(0, after + 1), at, ...one.points.slice(after + 1)] } : one)));
}

type Role = "corner" | "point";

/** What a traced place is in the outlines of closed pieces; null where it is in none. */
export function roleOf(trace: Trace, at: Point): Role | null {
  for (const { closed, edges } of trace.pieces) {
    if (!closed) continue;
    if (edges.some((one) => same(one.points[0]!, at))) return "corner";
    if (edges.some((one) => one.points.some((point) => same(point, at)))) return "point";
  }
  return null;
}

/** A point within an edge becomes a corner: two edges lie there, both of the kind and name of the one. */
export function withCornerAt(trace: Trace, at: Point): Trace {
  return trace.pieces.reduce((now, piece) => {
    const edge = piece.closed ? piece.edges.findIndex((one) => inner(one).some((point) => same(point, at))) : -1;
    if (edge < 0) return now;
    const one = piece.edges[edge]!;
    const k = one.points.findIndex((point) => same(point, at));
    const parts = [{ ...one, points: one.points.slice(0, k + 1) }, { ...one, points: one.points.slice(k) }];
    const cut = changed(now, piece.id, (edges) => [...edges.slice(0, edge), ...parts, ...edges.slice(edge + 1)]);
    return renumbered(cut, piece.id, [edge], (old) => (old > edge ? old + 1 : old));
  }, trace);
}

/** A corner becomes a point of one edge; a piece keeps two edges. */
export function withoutCornerAt(trace: Trace, at: Point): Trace {
  return trace.pieces.reduce((now, piece) => {
    const next = piece.closed && piece.edges.length > 2 ? piece.edges.findIndex((one) => same(one.points[0]!, at)) : -1;
    if (next < 0) return now;
    const count = piece.edges.length;
    const before = (next + count - 1) % count;
    const [first, second] = [piece.edges[before]!, piece.edges[next]!];
    const whole = { ...first, points: [...first.points, ...second.points.slice(1)] };
    const joined = changed(now, piece.id, (edges) => edges.map((one, k) => (k === before ? whole : one)).filter((_, k) => k !== next));
    return renumbered(joined, piece.id, [before, next], (old) => (old > next ? old - 1 : old));
  }, trace);
}

/** A point within an edge taken out. */
export function withoutPointAt(trace: Trace, at: Point): Trace {
  return trace.pieces.reduce(
    (now, piece) => (piece.closed ? changed(now, piece.id, (edges) => edges.map((one) => (inner(one).some((point) => same(point, at)) ? { ...one, points: one.points.filter((point) => !same(point, at)) } : one))) : now),
    trace,
  );
}

const same = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];
const inner = (one: TracedEdge): Point[] => one.points.slice(1, -1);

function onStretch([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): Point {
  const [dx, dy] = [bx - ax, by - ay];
  const long = dx * dx + dy * dy;
  const share = long > 0 ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / long)) : 0;
  return [ax + share * dx, ay + share * dy];
}

function changed(trace: Trace, id: string, change: (edges: TracedEdge[]) => TracedEdge[]): Trace {
  return { ...trace, pieces: trace.pieces.map((piece): TracedPiece => (piece.id === id ? { ...piece, edges: change(piece.edges) } : piece)) };
}

/** Confirmed seams keep their edges under the new numbers; one of an edge that is no longer the same is to be confirmed anew. */
function renumbered(trace: Trace, id: string, gone: number[], number: (old: number) => number): Trace {
  const is = (ref: EdgeRef) => ref.piece === id && gone.includes(ref.edge - 1);
  const named = (ref: EdgeRef): EdgeRef => (ref.piece === id ? { ...ref, edge: number(ref.edge - 1) + 1 } : ref);
  return { ...trace, seams: trace.seams.filter((seam) => !edgesOfBoth(seam).some(is)).map((seam) => renamed(seam, named)) };
}
