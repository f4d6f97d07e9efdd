import type { InsideLine, Piece } from "../wire/types.ts";
import { ends } from "./path.ts";

/** A level that is named on a piece, at one of its lines. */
export interface Named {
  id: string;
  piece: Piece;
  line: InsideLine;
}

/** Where each level is named: on the leftmost piece, beside which is room; one that has no line there, such as a level that an edge crosses, where its line is longest. */
export function namedLevels(pieces: readonly Piece[], levels: readonly string[]): Named[] {
  const known = new Set(levels);
  const isLevel = ({ id, kind }: InsideLine) => kind === "level" || (kind === "guide" && known.has(id));
  const fromLeft = pieces
    .filter((piece) => piece.layer === "outer" && piece.inside.some(isLevel))
    .sort((a, b) => a.box[0] + a.place[0] - (b.box[0] + b.place[0]));
  const found = new Map<string, Named>();
  for (const piece of fromLeft) {
    for (const line of piece.inside.filter(isLevel)) {
      const before = found.get(line.id);
      if (!before || (before.piece !== fromLeft[0] && long(before.line) < long(line))) found.set(line.id, { id: line.id, piece, line });
    }
  }
  return [...found.values()];
}

function long({ d }: InsideLine): number {
  const [from, to] = ends(d);
  return Math.hypot(to[0] - from[0], to[1] - from[1]);
}
