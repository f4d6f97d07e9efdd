import { apart } from "../tools/distance.ts";
import type { Point } from "../wire/types.ts";

/** One cubic curve: its ends and, between them, what they reach for. */
export type Cubic = [Point, Point, Point, Point];

const WORD = /[MLCZ]|-?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi;
const STEPS = 24;

/** The curves of a path as the server writes it: absolute M, L, C and Z. */
export function cubics(d: string): Cubic[] {
  const found: Cubic[] = [];
  const words = d.match(WORD) ?? [];
  let [here, start]: Point[] = [[0, 0], [0, 0]];
  let command = "M";
  let k = 0;
  const number = () => Number(words[k++]);
  const point = (): Point => [number(), number()];
  const straight = (to: Point) => found.push([here!, between(here!, to, 1 / 3), between(here!, to, 2 / 3), to]);
  while (k < words.length) {
    if (/[MLCZ]/i.test(words[k]!)) command = words[k++]!.toUpperCase();
    if (command === "Z") {
      if (apart(here!, start!) > 0) straight(start!);
      here = start;
    } else if (command === "M") {
      here = start = point();
      command = "L";
    } else if (command === "L") {
      const to = point();
      straight(to);
      here = to;
    } else {
      const [a, b, to] = [point(), point(), point()];
      found.push([here!, a, b, to]);
      here = to;
    }
  }
  return found;
}

/** A polyline along a path, with points no farther than `step` mm apart along it. */
export function walked(d: string, step: number): Point[] {
  const points: Point[] = [];
  for (const cubic of cubics(d)) {
    const [a, b, c, to] = cubic;
    const rough = apart(a, b) + apart(b, c) + apart(c, to);
    const parts = Math.max(1, Math.ceil(rough / step));
    for (let k = points.length === 0 ? 0 : 1; k <= parts; k++) points.push(at(cubic, k / parts));
  }
  return points;
}

/** Length along a path, mm, to about a hundredth. */
export const pathLength = (d: string): number => along(finely(d));

/** Length along a polyline, mm. */
export const along = (points: readonly Point[]): number =>
  points.reduce((sum, point, k) => (k === 0 ? 0 : sum + apart(points[k - 1]!, point)), 0);

/** The place of a path that is nearest to a point: how far along it and how far off, mm. */
export function nearest(d: string, to: Point): { at: Point; along: number; off: number } {
  let best = { at: to, along: 0, off: Infinity };
  let gone = 0;
  const points = finely(d);
  points.forEach((b, k) => {
    const a = points[k - 1];
    if (!a) return;
    const share = foot(a, b, to);
    const place = between(a, b, share);
    const off = apart(place, to);
    const length = apart(a, b);
    if (off < best.off) best = { at: place, along: gone + share * length, off };
    gone += length;
  });
  return best;
}

/** How far a point is from a polyline, mm. */
export function offLine(line: readonly Point[], point: Point): number {
  let least = Infinity;
  for (let k = 1; k < line.length; k++) {
    const [a, b] = [line[k - 1]!, line[k]!];
    least = Math.min(least, apart(between(a, b, foot(a, b, point)), point));
  }
  return least;
}

export const between = (a: Point, b: Point, share: number): Point => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];

const finely = (d: string): Point[] => {
  const points: Point[] = [];
  for (const cubic of cubics(d)) for (let k = points.length === 0 ? 0 : 1; k <= STEPS; k++) points.push(at(cubic, k / STEPS));
  return points;
};

function at([a, b, c, d]: Cubic, t: number): Point {
  const s = 1 - t;
  const blend = (k: 0 | 1) => s * s * s * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t * t * t * d[k];
  return [blend(0), blend(1)];
}

/** Share of the way from a to b that is nearest to a point. */
function foot(a: Point, b: Point, to: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const size = dx * dx + dy * dy;
  return size === 0 ? 0 : Math.min(1, Math.max(0, ((to[0] - a[0]) * dx + (to[1] - a[1]) * dy) / size));
}
