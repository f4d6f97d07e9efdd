import type { Piece, Point } from "../wire/types.ts";
import { nearest } from "./curves.ts";
import { ends } from "./path.ts";

/** Where a pin sits: on which seam, at which level, and how far above it along the seam, mm (below: negative). */
export interface Pin {
  seam: string;
  level: string;
  above: number;
}

/** Nearer to a level than this, a pin was meant to be at it, mm. */
const AT_LEVEL = 8;

/** The pin nearest to a place of a piece, on one of the seams; null where the piece has none of them, or no level. */
export function pinAt(piece: Piece, at: Point, seams: readonly string[]): Pin | null {
  const found = piece.edges
    .filter((edge) => seams.includes(edge.line))
    .map((edge) => ({ edge, hit: nearest(edge.d, at) }))
    .sort((a, b) => a.hit.off - b.hit.off)[0];
  if (!found) return null;
  const { edge, hit } = found;
  const levels = piece.inside
    .filter((inside) => inside.kind === "level")
    .map((inside) => {
      const [one, other] = ends(inside.d).map((end) => nearest(edge.d, end));
      const met = one!.off < other!.off ? one! : other!;
      const above = Math.abs(hit.along - met.along) * (hit.at[1] >= met.at[1] ? 1 : -1);
      return { level: inside.id, above };
    })
    .sort((a, b) => Math.abs(a.above) - Math.abs(b.above));
  const level = levels[0];
  if (!level) return null;
  const above = Math.abs(level.above) < AT_LEVEL ? 0 : Math.round(level.above);
  return { seam: edge.line, level: level.level, above };
}
