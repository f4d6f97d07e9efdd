import type { Point } from "../../wire/types.ts";
import type { State, Touch } from "../tool.ts";
import type { TraceDesk } from "./desk.ts";
import { Idle } from "./idle.ts";

/** A point that was put down before is carried elsewhere. */
export class Carrying implements State {
  readonly name = "carrying";
  readonly #pointer: number;
  readonly #from: Point;

  constructor(pointer: number, from: Point) {
    this.#pointer = pointer;
    this.#from = from;
  }

  press(): State {
    return this;
  }

  move(touch: Touch, desk: TraceDesk): State {
    if (touch.pointer === this.#pointer) desk.carry(this.#from, touch);
    return this;
  }

  lift(touch: Touch, desk: TraceDesk): State {
    if (touch.pointer !== this.#pointer) return this;
    desk.carried(this.#from, touch);
    return new Idle();
  }

  cancel(desk: TraceDesk): State {
    desk.uncarried();
    return new Idle();
  }
}
