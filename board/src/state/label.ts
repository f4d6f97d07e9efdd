import type { Piece } from "../wire/types.ts";

const WIDTH = 0.55; // of a letter, in heights of the type
const BESIDE = 20; // px by which a name may reach beyond its piece

type Named = Pick<Piece, "label" | "code" | "box">;

/** Whether a piece has a code that is shorter than its name. */
export const hasCode = (piece: Named): boolean => piece.code.length < piece.label.length;

/** Whether names of pieces would run into each other: then all that have codes bear those. `scale` is px per mm, `size` that of the type, px. */
export function crowded(pieces: readonly Named[], scale: number, size: number): boolean {
  return pieces.some((piece) => hasCode(piece) && piece.label.length * size * WIDTH > (piece.box[2] - piece.box[0]) * scale + BESIDE);
}
