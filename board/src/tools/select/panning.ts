import type { Point } from "../../wire/types.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Idle } from "./idle.ts";
import { Pinching } from "./pinching.ts";

/** The paper is moved. */
export class Panning implements State {
  readonly name = "panning";
  readonly #first: Touch;
  #last: Point;

  constructor(first: Touch) {
    this.#first = first;
    this.#last = first.at;
  }

  press(touch: Touch): State {
    return touch.pointer === this.#first.pointer ? this : new Pinching({ ...this.#first, at: this.#last }, touch);
  }

  move(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    desk.pan(touch.at[0] - this.#last[0], touch.at[1] - this.#last[1]);
    this.#last = touch.at;
    return this;
  }

  lift(touch: Touch): State {
    return touch.pointer === this.#first.pointer ? new Idle() : this;
  }

  cancel(): State {
    return new Idle();
  }
}
