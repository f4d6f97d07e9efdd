import { apart } from "../tools/distance.ts";
import type { Point } from "../wire/types.ts";
import type { Measured, Trace } from "../wire/trace.ts";

/** About how many pixels a mm of the paper is; null where nobody has said. The workroom reckons the exact scale. */
export function pixelsToMm(measured: Measured | null): number | null {
  if (!measured) return null;
  if (measured.kind === "length") return apart(...measured.ends) / measured.mm;
  const [a, b, c, d] = measured.corners;
  const wide = (apart(a, b) + apart(c, d)) / 2 / measured.width_mm;
  const high = (apart(b, c) + apart(d, a)) / 2 / measured.height_mm;
  return (wide + high) / 2;
}

/** How many mm of paper the picture shows from left to right; null where nobody has said. */
export function paperWidth(trace: Trace): number | null {
  const size = pixelsToMm(trace.measured);
  return size && trace.picture ? trace.picture.width / size : null;
}

/** How far from the pointer a pencil line is looked for, in pixels of the picture; `scale` is pixels of the screen to one of them. */
export function reachOf(measured: Measured | null, scale: number): number {
  const near = 9 / scale;
  const size = pixelsToMm(measured);
  const wanted = size ? Math.min(4 * size, Math.max(1.5 * size, near)) : near;
  return Math.min(60, Math.max(4, wanted));
}

/** How wide a pencil's line is taken to be, in pixels of the picture. */
export const pencilOf = (measured: Measured | null): number => Math.min(12, Math.max(1.6, 0.35 * (pixelsToMm(measured) ?? 6)));

export const middleOf = (points: readonly Point[]): Point => {
  const sum = points.reduce<Point>(([x, y], at) => [x + at[0], y + at[1]], [0, 0]);
  return [sum[0] / Math.max(1, points.length), sum[1] / Math.max(1, points.length)];
};
