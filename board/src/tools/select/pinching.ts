import type { Point } from "../../wire/types.ts";
import { apart, middle } from "../distance.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Idle } from "./idle.ts";
import { Panning } from "./panning.ts";

/** Two fingers: the paper moves with their middle and grows with their distance. */
export class Pinching implements State {
  readonly name = "pinching";
  #a: Touch;
  #b: Touch;

  constructor(a: Touch, b: Touch) {
    this.#a = a;
    this.#b = b;
  }

  press(): State {
    return this;
  }

  move(touch: Touch, desk: Desk): State {
    const before: [Point, Point] = [this.#a.at, this.#b.at];
    if (touch.pointer === this.#a.pointer) this.#a = touch;
    else if (touch.pointer === this.#b.pointer) this.#b = touch;
    else return this;
    const now: [Point, Point] = [this.#a.at, this.#b.at];
    const [from, to] = [middle(...before), middle(...now)];
    desk.pan(to[0] - from[0], to[1] - from[1]);
    const [was, is] = [apart(...before), apart(...now)];
    if (was > 1 && is > 1) desk.zoom(is / was, to);
    return this;
  }

  lift(touch: Touch): State {
    if (touch.pointer === this.#a.pointer) return new Panning(this.#b);
    return touch.pointer === this.#b.pointer ? new Panning(this.#a) : this;
  }

  cancel(): State {
    return new Idle();
  }
}
