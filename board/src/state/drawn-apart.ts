import type { Point } from "../wire/types.ts";

/** A handle by its key, where it is on the paper, and the way that it runs along there, mm. */
export interface Placed {
  key: string;
  at: Point;
  way: [Point, Point];
}

/** Nearer than this, px, one handle would lie on another; so far apart they are drawn then. */
const NEAR = 16;
const APART = 32;

/** By how much handles that lie on each other are drawn beside their places, px of the screen, y down; `scale` is px per mm. */
export function drawnApart(handles: readonly Placed[], scale: number): Map<string, Point> {
  const shifts = new Map<string, Point>();
  for (const crowd of crowds(handles, scale)) {
    const axis = crowd.every((handle) => lies(handle) === "level") ? 1 : 0;
    const along = crowd.map(({ at }) => at[axis] * scale);
    const middle = along.reduce((sum, place) => sum + place, 0) / crowd.length;
    const order = crowd.map((_, k) => k).sort((a, b) => along[a]! - along[b]! || a - b);
    order.forEach((k, rank) => {
      const shift = middle + (rank - (crowd.length - 1) / 2) * APART - along[k]!;
      shifts.set(crowd[k]!.key, axis === 0 ? [shift, 0] : [0, -shift]);
    });
  }
  return shifts;
}

/** Those that lie on each other, two or more at a place. */
function crowds(handles: readonly Placed[], scale: number): Placed[][] {
  const found: Placed[][] = [];
  for (const handle of handles) {
    const near = found.filter((crowd) => crowd.some((other) => Math.hypot(other.at[0] - handle.at[0], other.at[1] - handle.at[1]) * scale < NEAR));
    for (const crowd of near) found.splice(found.indexOf(crowd), 1);
    found.push([...near.flat(), handle]);
  }
  return found.filter((crowd) => crowd.length > 1);
}

const lies = ({ way: [[ax, ay], [bx, by]] }: Placed): "level" | "upright" => (Math.abs(bx - ax) > Math.abs(by - ay) ? "level" : "upright");
