import type { Piece, Point } from "../wire/types.ts";

export interface Stroke {
  piece: string;
  points: Point[];
}

/** How far beside a piece a line still counts as drawn on it, mm. */
const BESIDE = 5;

/** A line on the paper as stretches on the outer pieces that it goes over, in their own mm; what lies between them is left out. */
export function strokesOf(line: readonly Point[], pieces: readonly Piece[]): Stroke[] {
  const outer = pieces.filter((piece) => piece.layer === "outer");
  const strokes: Stroke[] = [];
  let over: Piece | undefined;
  for (const [x, y] of line) {
    const before = over;
    over = outer.find(({ box: [left, bottom, right, top], place: [dx, dy] }) => {
      const [px, py] = [x - dx, y - dy];
      return px >= left - BESIDE && px <= right + BESIDE && py >= bottom - BESIDE && py <= top + BESIDE;
    });
    const piece = over;
    if (!piece) continue;
    if (piece !== before) strokes.push({ piece: piece.id, points: [] });
    strokes.at(-1)!.points.push([round(x - piece.place[0]), round(y - piece.place[1])]);
  }
  return strokes.filter((stroke) => stroke.points.length > 1);
}

const round = (mm: number): number => Math.round(mm * 100) / 100;
