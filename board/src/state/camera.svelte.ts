import type { Piece, Point } from "../wire/types.ts";

export type Box = [number, number, number, number];

const CLOSEST = 20;
const FARTHEST = 0.02;

/** How the flat paper is looked at: pixels per mm, and where its origin lies on the screen. Paper is y up. */
export class Camera {
  scale = $state(1);
  x = $state(0);
  y = $state(0);
  width = $state(1);
  height = $state(1);

  toPaper([x, y]: Point): Point {
    return [(x - this.x) / this.scale, (this.y - y) / this.scale];
  }

  toScreen([x, y]: Point): Point {
    return [this.x + x * this.scale, this.y - y * this.scale];
  }

  pan(dx: number, dy: number): void {
    this.x += dx;
    this.y += dy;
  }

  /** Whether all of a box is on the screen. */
  shows([left, bottom, right, top]: Box): boolean {
    const [x0, y0] = this.toScreen([left, top]);
    const [x1, y1] = this.toScreen([right, bottom]);
    return x0 >= 0 && y0 >= 0 && x1 <= this.width && y1 <= this.height;
  }

  /** Closer (factor > 1) or farther; what lies at `at` on the screen stays there. */
  zoom(factor: number, at: Point = [this.width / 2, this.height / 2]): void {
    const scale = Math.min(CLOSEST, Math.max(FARTHEST, this.scale * factor));
    const real = scale / this.scale;
    this.x = at[0] - (at[0] - this.x) * real;
    this.y = at[1] - (at[1] - this.y) * real;
    this.scale = scale;
  }

  /** The whole box, with a margin in pixels and more of it `before`, on the left. */
  fit([left, bottom, right, top]: Box, before = 0, margin = 36): void {
    const room = [Math.max(20, this.width - before - 2 * margin), Math.max(20, this.height - 2 * margin)] as const;
    this.scale = Math.min(CLOSEST, room[0] / Math.max(1, right - left), room[1] / Math.max(1, top - bottom));
    this.x = (this.width + before) / 2 - ((left + right) / 2) * this.scale;
    this.y = this.height / 2 + ((bottom + top) / 2) * this.scale;
  }
}

/** What encloses pieces where they are laid; null where there are none. */
export function boxOf(pieces: readonly Piece[]): Box | null {
  if (pieces.length === 0) return null;
  const boxes = pieces.map(({ box: [left, bottom, right, top], place: [dx, dy] }) => [left + dx, bottom + dy, right + dx, top + dy] as const);
  return [
    Math.min(...boxes.map((box) => box[0])),
    Math.min(...boxes.map((box) => box[1])),
    Math.max(...boxes.map((box) => box[2])),
    Math.max(...boxes.map((box) => box[3])),
  ];
}

export const camera = new Camera();
