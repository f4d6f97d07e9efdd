import type { Level, Worn } from "../wire/body.ts";
import type { Piece } from "../wire/types.ts";
import { pathLength } from "./curves.ts";
import { goesRound, taped } from "./dressed.ts";

/** How far round body and garment are at a level, mm. */
export interface Girth extends Level {
  body: number;
  /** Of the pieces alone; null where an edge crosses the level. */
  cloth: number | null;
  /** Of the closed garment: with a lacing gap, without what laps. */
  closed: number | null;
  /** Whether the garment goes round there without a break. */
  round: boolean;
}

/** The girths at the levels that the garment has, from the top down. */
export function girthsOf(worn: Worn, levels: readonly Level[], pieces: ReadonlyMap<string, Piece>): Girth[] {
  const whole = levels.flatMap((level) => {
    const lines = worn.lines.filter((line) => line.kind === "level" && line.line === level.id);
    if (lines.length === 0) return [];
    const cloth = lines.reduce((sum, line) => sum + flatLength(pieces.get(line.piece), level.id), 0);
    const { gap = 0, overlap = 0 } = level;
    return [{ ...level, body: taped(worn.torso, level.height), cloth, closed: cloth + gap - overlap, round: goesRound(lines, gap + overlap) }];
  });
  const crossed = worn.crossed.map((level) => ({ ...level, body: taped(worn.torso, level.height), cloth: null, closed: null, round: false }));
  return [...whole, ...crossed].sort((a, b) => b.height - a.height);
}

function flatLength(piece: Piece | undefined, level: string): number {
  const d = piece?.inside.find((inside) => inside.kind === "level" && inside.id === level)?.d;
  return d ? pathLength(d) : 0;
}
