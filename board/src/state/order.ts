/** Where a row lands that is let go at a height: how many of the other rows have their middle above it. */
export const landing = (middles: readonly number[], from: number, y: number): number =>
  middles.filter((middle, k) => k !== from && middle < y).length;

/** The row that a key sends a row to; the same where it can go no farther or the key means nothing. */
export function sentBy(key: string, from: number, count: number): number {
  const to = { ArrowUp: from - 1, ArrowDown: from + 1, Home: 0, End: count - 1 }[key] ?? from;
  return Math.max(0, Math.min(count - 1, to));
}
