import type { BodyLine, Panel } from "../wire/body.ts";
import type { Point } from "../wire/types.ts";

export type Place3 = [number, number, number];
/** Shares of the three corners of a triangle. */
export type Shares = [number, number, number];

const EDGE = 15; // mm beside the triangles that still count as on the stitch line
const AROUND = 15; // mm between two panels' lines that still count as going on

/** Where a place of the paper lies on the wearer; null beside the stitch lines. */
export function onBody(panel: Panel, at: Point): Place3 | null {
  for (let k = 0; k < panel.triangles.length; k += 3) {
    const shares = sharesOf(panel, k / 3, at);
    if (shares && shares.every((share) => share >= -1e-6)) return mixed(panel.body, corners(panel, k / 3), shares, 3) as Place3;
  }
  return null;
}

/** The same of a place on the stitch line, which the triangles follow only nearly: the nearest corner of them. */
export function nearBody(panel: Panel, at: Point, within = EDGE): Place3 | null {
  const inside = onBody(panel, at);
  if (inside) return inside;
  const away = (k: number) => Math.hypot(panel.flat[2 * k]! - at[0], panel.flat[2 * k + 1]! - at[1]);
  const corners = Array.from({ length: panel.flat.length / 2 }, (_, k) => k);
  const nearest = corners.reduce((best, k) => (away(k) < away(best) ? k : best), 0);
  return away(nearest) <= within ? (panel.body.slice(3 * nearest, 3 * nearest + 3) as Place3) : null;
}

/** The place of the paper that lies at shares of a triangle, which is told by its number. */
export const onPaper = (panel: Panel, triangle: number, shares: Shares): Point => mixed(panel.flat, corners(panel, triangle), shares, 2) as Point;

/** Whether lines on the wearer run round the body without a break but for what closed edges stand `apart` or lap: each
 * end meets that of another. */
export function goesRound(lines: readonly BodyLine[], apart = 0): boolean {
  const ends = lines.flatMap(({ points }, k) => [
    { k, at: points.slice(0, 3) },
    { k, at: points.slice(-3) },
  ]);
  const meet = (a: number[], b: number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!) <= AROUND + apart;
  return ends.length > 0 && ends.every((end) => ends.some((other) => other.k !== end.k && meet(end.at, other.at)));
}

/** The girth that a tape reads round a body at a height, mm: dents are bridged. 0 where there is no body. */
export function taped({ points, triangles }: { points: readonly number[]; triangles: readonly number[] }, height: number): number {
  // A height at which no corner lies, so that each edge is cut or not.
  const z = height + 0.0037;
  const cut: Point[] = [];
  for (let k = 0; k < triangles.length; k += 3) {
    for (let side = 0; side < 3; side++) {
      const [a, b] = [3 * triangles[k + side]!, 3 * triangles[k + ((side + 1) % 3)]!];
      const [za, zb] = [points[a + 2]!, points[b + 2]!];
      if (za < z === zb < z) continue;
      const share = (z - za) / (zb - za);
      cut.push([points[a]! + share * (points[b]! - points[a]!), points[a + 1]! + share * (points[b + 1]! - points[a + 1]!)]);
    }
  }
  const hull = hullOf(cut);
  return hull.reduce((sum, [x, y], k) => sum + Math.hypot(x - hull.at(k - 1)![0], y - hull.at(k - 1)![1]), 0);
}

function hullOf(points: Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (all: Point[]) => {
    const chain: Point[] = [];
    for (const point of all) {
      while (chain.length > 1 && turn(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

const turn = (a: Point, b: Point, c: Point): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

const corners = ({ triangles }: Panel, triangle: number) => triangles.slice(3 * triangle, 3 * triangle + 3);

function mixed(places: readonly number[], of: readonly number[], shares: Shares, size: number): number[] {
  return Array.from({ length: size }, (_, axis) => of.reduce((sum, corner, k) => sum + shares[k]! * places[size * corner + axis]!, 0));
}

function sharesOf(panel: Panel, triangle: number, [x, y]: Point): Shares | null {
  const [a, b, c] = corners(panel, triangle).map((corner): Point => [panel.flat[2 * corner]!, panel.flat[2 * corner + 1]!]) as [Point, Point, Point];
  const whole = turn(a, b, c);
  if (whole === 0) return null;
  return [turn([x, y], b, c) / whole, turn(a, [x, y], c) / whole, turn(a, b, [x, y]) / whole];
}
