import type { Joint, Motion, PlacedPiece } from "../wire/joined.ts";
import type { Piece, Point } from "../wire/types.ts";
import type { Box } from "./camera.svelte.ts";
import { walked } from "./curves.ts";

const FINE = 40; // mm between the places of an outline

/** As an SVG transform. */
export const transformOf = ({ angle, x, y, mirrored }: Motion): string => `translate(${x} ${y}) rotate(${(angle * 180) / Math.PI})${mirrored ? " scale(-1 1)" : ""}`;

/** Where a point comes to lie. */
export function moved({ angle, x, y, mirrored }: Motion, [px, py]: Point): Point {
  const [c, s, own] = [Math.cos(angle), Math.sin(angle), mirrored ? -px : px];
  return [c * own - s * py + x, s * own + c * py + y];
}

/** Where a point came from. */
export function movedBack({ angle, x, y, mirrored }: Motion, [px, py]: Point): Point {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [px - x, py - y];
  const own = c * dx + s * dy;
  return [mirrored ? -own : own, -s * dx + c * dy];
}

/** How side b lies at a share of the seam, 0 … 1: between two of the steps it is turned on evenly. */
export function lying(steps: readonly Joint[], share: number): Joint {
  const at = Math.min(1, Math.max(0, share)) * (steps.length - 1);
  const from = steps[Math.floor(at)]!;
  const to = steps[Math.ceil(at)]!;
  const part = at - Math.floor(at);
  const mixed = (a: number, b: number) => a + part * (b - a);
  const nearer = part < 0.5 ? from : to;
  return {
    share: mixed(from.share, to.share),
    angle: from.angle + part * wrapped(to.angle - from.angle),
    x: mixed(from.x, to.x),
    y: mixed(from.y, to.y),
    gap_mm: nearer.gap_mm,
    degrees: nearer.degrees,
  };
}

const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** What encloses both sides through the whole walk. */
export function roomOf(pieces: ReadonlyMap<string, Piece>, still: readonly PlacedPiece[], turned: readonly PlacedPiece[], steps: readonly Joint[]): Box | null {
  const points = still.flatMap((placed) => outline(pieces, placed));
  const own = turned.flatMap((placed) => outline(pieces, placed));
  for (let k = 0; k < steps.length; k += 5) points.push(...own.map((point) => moved(steps[k]!, point)));
  if (points.length === 0) return null;
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** Places round a piece, as it is placed. */
function outline(pieces: ReadonlyMap<string, Piece>, placed: PlacedPiece): Point[] {
  const piece = pieces.get(placed.piece);
  return piece ? walked(piece.cut, FINE).map((point) => moved(placed, point)) : [];
}
