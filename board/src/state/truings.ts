import type { Trace, TruingChange } from "../wire/trace.ts";

/** The changes piece by piece and along each outline, so that a line stays where it is when another is taken or left. */
export function byOutline(trace: Trace, changes: readonly TruingChange[]): TruingChange[] {
  const place = new Map(trace.pieces.map((piece, k) => [piece.id, k]));
  const key = ({ piece, number }: TruingChange) => (place.get(piece) ?? trace.pieces.length) * 1000 + number;
  return [...changes].sort((a, b) => key(a) - key(b));
}
