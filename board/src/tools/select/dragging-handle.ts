import type { Handle, Point } from "../../wire/types.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Idle } from "./idle.ts";

/** A handle is held: it goes where the hand goes, by as much as the hand. */
export class DraggingHandle implements State {
  readonly name = "dragging";
  readonly #pointer: number;
  readonly #handle: Handle;
  readonly #grip: Point;

  constructor(first: Touch, handle: Handle, desk: Desk) {
    const [x, y] = desk.onPiece(handle.piece, first.at);
    this.#pointer = first.pointer;
    this.#handle = handle;
    this.#grip = [handle.at[0] - x, handle.at[1] - y];
  }

  press(): State {
    return this;
  }

  move(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#pointer) return this;
    const [x, y] = desk.onPiece(this.#handle.piece, touch.at);
    desk.drag(this.#handle, [x + this.#grip[0], y + this.#grip[1]], touch.alt);
    return this;
  }

  lift(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#pointer) return this;
    desk.drop();
    return new Idle();
  }

  cancel(desk: Desk): State {
    desk.leave();
    return new Idle();
  }
}
