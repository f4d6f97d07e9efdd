import type { Point } from "../wire/types.ts";
import type { EdgeRef, Trace, TracedEdge, TracedPiece } from "../wire/trace.ts";
import { apart } from "../tools/distance.ts";
import { edgesOfBoth, renamed } from "./seam-side.ts";

/** Names of the usual panels, in the order in which they are offered. */
const PANELS = ["CF", "SF", "SB", "CB"];
/** A level, or a grain line, that begins and ends in one place is none. */
const SHORTEST = 2;

const edge = (...points: Point[]): TracedEdge => ({ points, kind: null, line: "" });

/** The piece that is being traced; null where none is. */
export function openPiece(trace: Trace): TracedPiece | null {
  return trace.pieces.find((piece) => !piece.closed) ?? null;
}

export function lastPoint(piece: TracedPiece): Point {
  return piece.edges.at(-1)!.points.at(-1)!;
}

export const firstPoint = (piece: TracedPiece): Point => piece.edges[0]!.points[0]!;

/** A name that no piece has yet. */
export function freePiece(trace: Trace): string {
  const taken = new Set(trace.pieces.map((piece) => piece.id));
  const usual = PANELS.find((id) => !taken.has(id));
  if (usual) return usual;
  let k = trace.pieces.length + 1;
  while (taken.has(`piece-${k}`)) k++;
  return `piece-${k}`;
}

/** One more point of the open edge; where no piece is open, the first one of a new piece. */
export function withPoint(trace: Trace, at: Point): Trace {
  const piece = openPiece(trace);
  if (!piece) {
    const begun: TracedPiece = { id: freePiece(trace), label: "", whole: false, closed: false, edges: [edge(at)], levels: [], grain: null, notches: [], marks: [] };
    return { ...trace, pieces: [...trace.pieces, begun] };
  }
  return replaced(trace, piece, { edges: [...piece.edges.slice(0, -1), { ...piece.edges.at(-1)!, points: [...piece.edges.at(-1)!.points, at] }] });
}

/** The edge ends at its last point, and the next one begins there; an edge of a single point goes on. */
export function withCorner(trace: Trace): Trace {
  const piece = openPiece(trace);
  if (!piece || piece.edges.at(-1)!.points.length < 2) return trace;
  return replaced(trace, piece, { edges: [...piece.edges, edge(lastPoint(piece))] });
}

/** Whether the open piece could be closed: two edges, or one that is bent. */
export function canClose(trace: Trace): boolean {
  const piece = openPiece(trace);
  return piece !== null && piece.edges.length >= 2 && piece.edges.reduce((sum, one) => sum + one.points.length - 1, 0) >= 2;
}

/** The piece ends at its first point. It is turned so that its edges run anticlockwise as it is looked at. */
export function closed(trace: Trace): Trace {
  const piece = openPiece(trace);
  if (!piece || !canClose(trace)) return trace;
  const last = piece.edges.at(-1)!;
  const edges = [...piece.edges.slice(0, -1), { ...last, points: [...last.points, firstPoint(piece)] }];
  return replaced(trace, piece, { closed: true, edges: clockwise(edges) ? reversed(edges) : edges });
}

/** Without the point that was put down last; a corner is taken back before its point. */
export function withoutLast(trace: Trace): Trace {
  const piece = openPiece(trace);
  if (!piece) return trace;
  const last = piece.edges.at(-1)!;
  if (last.points.length > 1) return replaced(trace, piece, { edges: [...piece.edges.slice(0, -1), { ...last, points: last.points.slice(0, -1) }] });
  if (piece.edges.length > 1) return replaced(trace, piece, { edges: piece.edges.slice(0, -1) });
  return withoutPiece(trace, piece.id);
}

export function withoutPiece(trace: Trace, id: string): Trace {
  return { ...trace, pieces: trace.pieces.filter((piece) => piece.id !== id), seams: trace.seams.filter((seam) => edgesOfBoth(seam).every((ref) => ref.piece !== id)) };
}

export function changedPiece(trace: Trace, id: string, change: Partial<TracedPiece>): Trace {
  const piece = trace.pieces.find((one) => one.id === id);
  if (!piece) return trace;
  const named = (ref: EdgeRef): EdgeRef => (change.id !== undefined && ref.piece === id ? { ...ref, piece: change.id } : ref);
  return { ...replaced(trace, piece, change), seams: trace.seams.map((seam) => renamed(seam, named)) };
}

export function changedEdge(trace: Trace, id: string, number: number, change: Partial<TracedEdge>): Trace {
  const piece = trace.pieces.find((one) => one.id === id);
  if (!piece) return trace;
  return replaced(trace, piece, { edges: piece.edges.map((one, k) => (k === number ? { ...one, ...change } : one)) });
}

/** Every place of the traced block that lies exactly there, moved: neighbouring edges share their corner. */
export function moved(trace: Trace, from: Point, to: Point): Trace {
  const put = (at: Point): Point => (at[0] === from[0] && at[1] === from[1] ? to : at);
  const pieces = trace.pieces.map((piece) => ({
    ...piece,
    edges: piece.edges.map((one) => ({ ...one, points: one.points.map(put) })),
    levels: piece.levels.map((level) => ({ ...level, points: level.points.map(put) })),
    grain: piece.grain && ([put(piece.grain[0]), put(piece.grain[1])] as [Point, Point]),
    notches: piece.notches.map((notch) => ({ ...notch, at: put(notch.at) })),
    marks: piece.marks.map((mark) => ({ ...mark, at: put(mark.at) })),
  }));
  const measured = trace.measured;
  if (!measured) return { ...trace, pieces };
  const kept = measured.kind === "length" ? { ...measured, ends: measured.ends.map(put) as typeof measured.ends } : { ...measured, corners: measured.corners.map(put) as typeof measured.corners };
  return { ...trace, pieces, measured: kept };
}

/** Every place that was pressed, that a hand can take hold of again. */
export function places(trace: Trace): Point[] {
  const measured = trace.measured ? (trace.measured.kind === "length" ? trace.measured.ends : trace.measured.corners) : [];
  const inPieces = trace.pieces.flatMap((piece) => [...piece.edges.flatMap((one) => one.points), ...piece.levels.flatMap((level) => level.points), ...(piece.grain ?? []), ...piece.notches.map((notch) => notch.at), ...piece.marks.map((mark) => mark.at)]);
  return [...inPieces, ...measured];
}

/** The nearest of some places within a reach; null where none is. */
export function nearest(to: Point, among: readonly Point[], reach: number): Point | null {
  let [found, least]: [Point | null, number] = [null, reach];
  for (const at of among) {
    const off = apart(to, at);
    if (off <= least) [found, least] = [at, off];
  }
  return found;
}

/** The closed piece that the middle of a line lies in. */
export function pieceAround(trace: Trace, line: readonly Point[]): TracedPiece | null {
  const [first, last] = [line[0], line.at(-1)];
  if (!first || !last || apart(first, last) < SHORTEST) return null;
  const middle: Point = line.length > 2 ? line[Math.floor(line.length / 2)]! : [(first[0] + last[0]) / 2, (first[1] + last[1]) / 2];
  return trace.pieces.find((piece) => piece.closed && inside(middle, ring(piece.edges))) ?? null;
}

/** A level line laid in a piece; one of the same name is replaced. */
export function withLevel(trace: Trace, id: string, level: string, points: Point[]): Trace {
  const piece = trace.pieces.find((one) => one.id === id);
  if (!piece) return trace;
  return replaced(trace, piece, { levels: [...piece.levels.filter((known) => known.id !== level), { id: level, points }] });
}

/** The closed piece that a place lies in. */
export const pieceAt = (trace: Trace, at: Point): TracedPiece | null => trace.pieces.find((piece) => piece.closed && inside(at, ring(piece.edges))) ?? null;

/** A point inside a piece; one of the same name is replaced. */
export function withMark(trace: Trace, id: string, mark: string, at: Point): Trace {
  const piece = trace.pieces.find((one) => one.id === id);
  if (!piece) return trace;
  return replaced(trace, piece, { marks: [...piece.marks.filter((known) => known.id !== mark), { id: mark, at }] });
}

/** A notch on the outline of a piece. */
export function withNotch(trace: Trace, id: string, at: Point, count: number): Trace {
  const piece = trace.pieces.find((one) => one.id === id);
  return piece ? replaced(trace, piece, { notches: [...piece.notches, { at, count }] }) : trace;
}

const ring = (edges: readonly TracedEdge[]): Point[] => edges.flatMap((one) => one.points.slice(0, -1));

function inside([x, y]: Point, outline: readonly Point[]): boolean {
  let within = false;
  outline.forEach(([ax, ay], k) => {
    const [bx, by] = outline[(k + 1) % outline.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) within = !within;
  });
  return within;
}

/** As it is looked at; y runs down. */
function clockwise(edges: readonly TracedEdge[]): boolean {
  const outline = ring(edges);
  return outline.reduce((sum, [ax, ay], k) => sum + ax * outline[(k + 1) % outline.length]![1] - ay * outline[(k + 1) % outline.length]![0], 0) > 0;
}

/** The other way round, still from the first corner. */
const reversed = (edges: readonly TracedEdge[]): TracedEdge[] => [...edges].reverse().map((one) => ({ ...one, points: [...one.points].reverse() }));

function replaced(trace: Trace, piece: TracedPiece, change: Partial<TracedPiece>): Trace {
  return { ...trace, pieces: trace.pieces.map((one) => (one === piece ? { ...one, ...change } : one)) };
}
