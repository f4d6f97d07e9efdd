import type { Layer, Piece, Seam, Span } from "../wire/types.ts";

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
