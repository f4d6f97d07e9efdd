import type { Choice } from "../wire/types.ts";

interface Piece {
  id: string;
  label: string;
  layer: string;
}

/** Names of fields whose text names a line, or a piece, of the pattern. */
const LINES = new Set(["line", "towards", "seam", "dart", "edge", "open", "closed"]);
const PIECES = new Set(["piece", "pieces", "first"]);

/** Whether a field's text names a line. */
export const namesLine = (field: string): boolean => LINES.has(field);

/** Whether a field's text names a piece. */
export const namesPiece = (field: string): boolean => PIECES.has(field);

/** The outer pieces, by code and label. */
export const pieceChoices = (pieces: readonly Piece[]): Choice[] =>
  pieces.filter((piece) => piece.layer === "outer").map((piece) => ({ value: piece.id, label: `${piece.label} (${piece.id})` }));

/** Lines as they are offered, the block's first, then those that steps made, and what is chosen already. */
export function lineChoices(block: readonly Choice[], made: readonly string[], chosen: readonly string[]): Choice[] {
  const known = new Set(block.map((choice) => choice.value));
  const others = [...new Set([...made, ...chosen])].filter((line) => line && !known.has(line));
  return [...block, ...others.map((line) => ({ value: line, label: line.replaceAll("/", ", ").replaceAll("-", " ") }))];
}
