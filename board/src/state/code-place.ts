import type { Piece, Point } from "../wire/types.ts";
import { walked } from "./curves.ts";

const WIDE = 0.68; // of a capital, in heights of the type
const CLEAR = 4; // px between a letter and a line
const MARK = 6; // px from the middle of a mark to its rim
const ACROSS = 9;
const UPWARDS = 24;

type Drawn = Pick<Piece, "code" | "box" | "cut" | "edges" | "inside" | "marks" | "notches" | "grain" | "text_at">;

/** Where a code stands inside its piece clear of every line, mark and notch, as near as can be to where its text does; null where it has no room. `scale` is px per mm, `size` the height of the type, px. */
export function codePlace(piece: Drawn, scale: number, size: number): Point | null {
  const half: Point = [(piece.code.length * size * WIDE) / 2 / scale + CLEAR / scale, size / 2 / scale + CLEAR / scale];
  const step = half[1];
  const outline = walked(piece.cut, step);
  const lines = [piece.cut, ...piece.edges.map((edge) => edge.d), ...piece.inside.map((inside) => inside.d)].flatMap((d) => walked(d, step));
  const signs = [...piece.notches.flatMap(({ from, to }) => [from, to]), ...(piece.grain ? straight(...piece.grain, step) : [])];
  const points = [...lines, ...signs];
  const [left, bottom, right, top] = piece.box;
  let best: Point | null = null;
  let least = Infinity;
  for (let i = 1; i < ACROSS; i++) {
    for (let k = 1; k < UPWARDS; k++) {
      const at: Point = [left + ((right - left) * i) / ACROSS, bottom + ((top - bottom) * k) / UPWARDS];
      const off = (at[0] - piece.text_at[0]) ** 2 + (at[1] - piece.text_at[1]) ** 2;
      if (off >= least || points.some((point) => meets(at, half, point, 0))) continue;
      if (piece.marks.some((mark) => meets(at, half, mark.at, MARK / scale)) || !holds(outline, at)) continue;
      [best, least] = [at, off];
    }
  }
  return best;
}

const meets = (at: Point, half: Point, point: Point, more: number): boolean => Math.abs(point[0] - at[0]) < half[0] + more && Math.abs(point[1] - at[1]) < half[1] + more;

function straight(a: Point, b: Point, step: number): Point[] {
  const parts = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / step));
  return Array.from({ length: parts + 1 }, (_, k): Point => [a[0] + ((b[0] - a[0]) * k) / parts, a[1] + ((b[1] - a[1]) * k) / parts]);
}

/** Whether a closed outline goes round a place. */
function holds(outline: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  for (let k = 0, before = outline.length - 1; k < outline.length; before = k++) {
    const [[ax, ay], [bx, by]] = [outline[k]!, outline[before]!];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}
