import type { PictureGrip } from "../../state/laid-picture.ts";
import type { Point } from "../../wire/types.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Idle } from "./idle.ts";

/** A grip of the picture is held: it goes where the hand goes, by as much as the hand. */
export class Gripping implements State {
  readonly name = "dragging";
  readonly #pointer: number;
  readonly #grip: PictureGrip;
  readonly #off: Point;

  constructor(first: Touch, grip: PictureGrip, at: Point, desk: Desk) {
    const [x, y] = desk.onPaper(first.at);
    this.#pointer = first.pointer;
    this.#grip = grip;
    this.#off = [at[0] - x, at[1] - y];
  }

  press(): State {
    return this;
  }

  move(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#pointer) return this;
    const [x, y] = desk.onPaper(touch.at);
    desk.hold(this.#grip, [x + this.#off[0], y + this.#off[1]], touch.alt);
    return this;
  }

  lift(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#pointer) return this;
    desk.laid();
    return new Idle();
  }

  cancel(desk: Desk): State {
    desk.laid();
    return new Idle();
  }
}
