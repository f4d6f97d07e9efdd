import { apart } from "../tools/distance.ts";
import type { Layer, Piece, Point, Seam, Span } from "../wire/types.ts";
import { along, between, walked } from "./curves.ts";

const FINE = 2; // mm

/** Whether an edge is sewn in a seam. */
export const hasEdge = (seam: Seam, piece: string | null, edge: string | null): boolean =>
  [...seam.a, ...seam.b].some((span) => span.piece === piece && span.edge === edge);

/** What a side of a seam is cut of. */
export const layerOf = (seam: Seam, pieces: ReadonlyMap<string, Piece>): Layer => pieces.get(seam.a[0]?.piece ?? "")?.layer ?? "outer";

/** The pieces of one side by their labels, each once. */
export const sideLabels = (side: readonly Span[], pieces: ReadonlyMap<string, Piece>): string[] =>
  [...new Set(side.map((span) => pieces.get(span.piece)?.label ?? span.piece))];

/** Whether both sides are the same edges, once as drawn and once mirrored. */
export const isOwnMirror = (seam: Seam): boolean =>
  seam.a.length === seam.b.length && seam.a.every((span, k) => span.edge === seam.b[k]!.edge && span.hand !== seam.b[k]!.hand);

/** The stretch of an edge from one share of its length to another, as a polyline. */
export function stretch(d: string, from: number, to: number): Point[] {
  const points = walked(d, FINE);
  const length = along(points);
  const [first, last] = [Math.min(from, to) * length, Math.max(from, to) * length];
  const found: Point[] = [];
  let gone = 0;
  for (let k = 1; k < points.length; k++) {
    const [a, b] = [points[k - 1]!, points[k]!];
    const size = apart(a, b);
    if (size === 0) continue;
    const shares = [(first - gone) / size, (last - gone) / size].map((share) => Math.min(1, Math.max(0, share))) as [number, number];
    if (gone + size >= first && gone <= last) {
      if (found.length === 0) found.push(between(a, b, shares[0]));
      found.push(between(a, b, shares[1]));
    }
    gone += size;
  }
  return found;
}
