import type { Handle, Point } from "../wire/types.ts";

const ARROWS: Record<string, Point> = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };
const SMALL = 1;
const LARGE = 10;
/** A pause after which the place is kept by itself, ms. */
const PAUSE = 900;

export interface Mover {
  drag(handle: Handle, to: Point): void;
  drop(): void;
  leave(): void;
}

/** A handle moved by keys: idle, or held until a pause, Enter, Escape or leaving it. */
export class Nudge {
  #held: { handle: Handle; to: Point } | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #mover: Mover;

  constructor(mover: Mover) {
    this.#mover = mover;
  }

  /** Whether the key was for the handle. */
  key(handle: Handle, key: string, shift: boolean): boolean {
    const arrow = ARROWS[key];
    if (arrow) {
      const [dx, dy] = along(handle, arrow, shift ? LARGE : SMALL);
      const { to } = this.#held ?? { to: handle.at };
      this.#held = { handle, to: [to[0] + dx, to[1] + dy] };
      this.#mover.drag(handle, this.#held.to);
      clearTimeout(this.#timer);
      this.#timer = setTimeout(() => this.settle(), PAUSE);
      return true;
    }
    if (!this.#held || (key !== "Enter" && key !== "Escape")) return false;
    if (key === "Enter") this.settle();
    else this.#end(() => this.#mover.leave());
    return true;
  }

  /** Keep the place, if it was moved. */
  settle(): void {
    this.#end(() => this.#mover.drop());
  }

  #end(how: () => void): void {
    clearTimeout(this.#timer);
    if (!this.#held) return;
    this.#held = null;
    how();
  }
}

/** By how much an arrow key moves a handle: along its way, in the sense that is nearer to the arrow's. */
function along(handle: Handle, arrow: Point, size: number): Point {
  const [[ax, ay], [bx, by]] = handle.way;
  const length = Math.hypot(bx - ax, by - ay);
  if (handle.anywhere || length === 0) return [arrow[0] * size, arrow[1] * size];
  const way: Point = [(bx - ax) / length, (by - ay) / length];
  const sense = arrow[0] * way[0] + arrow[1] * way[1];
  // Across the way an arrow still moves it: right and up towards the upper or right end.
  const across = Math.abs(way[1]) >= Math.abs(way[0]) ? Math.sign(way[1]) : Math.sign(way[0]);
  const sign = Math.abs(sense) > 0.1 ? Math.sign(sense) : across * (arrow[0] + arrow[1]);
  return [way[0] * size * sign, way[1] * size * sign];
}
