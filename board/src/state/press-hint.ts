import type { Trace } from "../wire/trace.ts";
import type { Point } from "../wire/types.ts";
import { apart } from "../tools/distance.ts";
import * as outline from "./outline.ts";

/** What a press under the hand would do: end the edge in a corner, close the piece, end the level line. */
export interface PressHint {
  does: "corner" | "close" | "level";
  at: Point;
}

/**
 * What is to be said beside the place that the hand is over; null where a press only puts down a point.
 * `hand` is null where there is no pointer, as after a touch: then the last point is meant. `reach` is in pixels of the
 * picture.
 */
export function pressHint(trace: Trace, mode: string, draft: readonly Point[], hand: Point | null, reach: number): PressHint | null {
  const over = (at: Point) => hand !== null && apart(hand, at) <= reach;
  if (mode === "level") {
    const last = draft.at(-1);
    return last && draft.length > 1 && (hand === null || over(last)) ? { does: "level", at: last } : null;
  }
  const piece = mode === "edges" ? outline.openPiece(trace) : null;
  if (!piece) return null;
  const first = outline.firstPoint(piece);
  if (outline.canClose(trace) && over(first)) return { does: "close", at: first };
  const last = outline.lastPoint(piece);
  return piece.edges.at(-1)!.points.length > 1 && (hand === null || over(last)) ? { does: "corner", at: last } : null;
}
