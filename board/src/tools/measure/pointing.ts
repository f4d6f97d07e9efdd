import { apart } from "../distance.ts";
import { Panning } from "../select/panning.ts";
import { Pinching } from "../select/pinching.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Idle } from "./idle.ts";

const STILL = { mouse: 4, pen: 5, touch: 10 };

/** Pressed, and not yet moved: lifting measures there, moving moves the paper. */
export class Pointing implements State {
  readonly name = "pointing";
  readonly #first: Touch;

  constructor(first: Touch) {
    this.#first = first;
  }

  press(touch: Touch): State {
    return touch.pointer === this.#first.pointer ? this : new Pinching(this.#first, touch);
  }

  move(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer || apart(touch.at, this.#first.at) <= STILL[this.#first.kind]) return this;
    return new Panning(this.#first).move(touch, desk);
  }

  lift(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    desk.measure(this.#first);
    return new Idle();
  }

  cancel(): State {
    return new Idle();
  }
}
