import type { Point } from "../../wire/types.ts";
import { apart } from "../distance.ts";
import { Panning } from "../select/panning.ts";
import { Pinching } from "../select/pinching.ts";
import type { State, Touch } from "../tool.ts";
import { Carrying } from "./carrying.ts";
import type { TraceDesk } from "./desk.ts";
import { Idle } from "./idle.ts";

const STILL = { mouse: 4, pen: 5, touch: 10 };

/** Pressed, and not yet moved: lifting puts a point there, moving carries the point under the hand, or the paper. */
export class Pointing implements State {
  readonly name = "pointing";
  readonly #first: Touch;
  readonly #on: Point | null;

  constructor(first: Touch, on: Point | null) {
    this.#first = first;
    this.#on = on;
  }

  press(touch: Touch): State {
    return touch.pointer === this.#first.pointer ? this : new Pinching(this.#first, touch);
  }

  move(touch: Touch, desk: TraceDesk): State {
    if (touch.pointer !== this.#first.pointer || apart(touch.at, this.#first.at) <= STILL[this.#first.kind]) return this;
    if (this.#on) return new Carrying(touch.pointer, this.#on).move(touch, desk);
    return new Panning(this.#first).move(touch, desk);
  }

  lift(touch: Touch, desk: TraceDesk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    desk.put(this.#first, this.#on);
    return new Idle();
  }

  cancel(): State {
    return new Idle();
  }
}
