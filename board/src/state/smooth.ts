import type { Point } from "../wire/types.ts";

/** A line as it will run through its points, to look at, as an SVG path: the workroom lays the exact one. */
export function smooth(points: readonly Point[]): string {
  const [first, ...rest] = points;
  if (!first) return "";
  if (points.length < 3) return `M${first.join(" ")}` + rest.map((at) => `L${at.join(" ")}`).join("");
  const tangents = points.map((at, k) => tangent(points[k - 1] ?? null, at, points[k + 1] ?? null, points[k - 2] ?? points[k + 2] ?? null));
  let path = `M${first.join(" ")}`;
  for (let k = 1; k < points.length; k++) {
    const [a, b] = [points[k - 1]!, points[k]!];
    const third = Math.hypot(b[0] - a[0], b[1] - a[1]) / 3;
    const [ta, tb] = [tangents[k - 1]!, tangents[k]!];
    path += `C${a[0] + ta[0] * third} ${a[1] + ta[1] * third} ${b[0] - tb[0] * third} ${b[1] - tb[1] * third} ${b[0]} ${b[1]}`;
  }
  return path;
}

/** Direction at a point: of the parabola through it and its neighbours, in the sense of the line. */
function tangent(before: Point | null, at: Point, after: Point | null, beyond: Point | null): Point {
  const slope = (a: Point, b: Point): Point => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  };
  if (before && after) {
    const [s, t] = [slope(before, at), slope(at, after)];
    const [p, q] = [Math.hypot(at[0] - before[0], at[1] - before[1]), Math.hypot(after[0] - at[0], after[1] - at[1])];
    return [(s[0] * q + t[0] * p) / (p + q), (s[1] * q + t[1] * p) / (p + q)];
  }
  const [near, way] = before ? [slope(before, at), beyond && slope(beyond, before)] : [slope(at, after!), beyond && slope(after!, beyond)];
  return way ? [1.5 * near[0] - 0.5 * way[0], 1.5 * near[1] - 0.5 * way[1]] : near;
}
