import type { Finding, Point } from "../wire/types.ts";

/** A finding that has a place on a piece, and its number in the list. */
export interface Found {
  k: number;
  piece: string;
  at: Point;
}

export const placed = (findings: readonly Finding[]): Found[] =>
  findings.flatMap((finding, k) => (finding.piece && finding.at ? [{ k, piece: finding.piece, at: finding.at }] : []));

/** Number of the finding nearest to a place, within so many mm; null where there is none. */
export function foundNear(found: readonly Found[], piece: string, [x, y]: Point, within: number): number | null {
  const near = found
    .filter((one) => one.piece === piece)
    .map((one) => ({ k: one.k, away: Math.hypot(one.at[0] - x, one.at[1] - y) }))
    .filter(({ away }) => away <= within)
    .sort((a, b) => a.away - b.away);
  return near[0]?.k ?? null;
}
