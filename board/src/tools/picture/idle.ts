import { Gripping } from "./gripping.ts";
import { Panning } from "../select/panning.ts";
import { Pinching } from "../select/pinching.ts";
import type { Point } from "../../wire/types.ts";
import type { Desk, State, Touch } from "../tool.ts";

/** The picture lies still. */
export class Idle implements State {
  readonly name = "idle";

  press(touch: Touch, desk: Desk): State {
    if (touch.under.on === "picture-grip" && !touch.second) return new Gripping(touch, touch.under.grip, touch.under.at, desk);
    return touch.second || !desk.onPicture(touch.at) ? new Panning(touch) : new Shifting(touch);
  }

  move(): State {
    return this;
  }

  lift(): State {
    return this;
  }

  cancel(): State {
    return this;
  }
}

/** The picture goes with the hand. */
export class Shifting implements State {
  readonly name = "dragging";
  readonly #first: Touch;
  #last: Point;

  constructor(first: Touch) {
    this.#first = first;
    this.#last = first.at;
  }

  press(touch: Touch, desk: Desk): State {
    if (touch.pointer === this.#first.pointer) return this;
    desk.laid();
    return new Pinching({ ...this.#first, at: this.#last }, touch);
  }

  move(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    const [from, to] = [desk.onPaper(this.#last), desk.onPaper(touch.at)];
    desk.shift(to[0] - from[0], to[1] - from[1]);
    this.#last = touch.at;
    return this;
  }

  lift(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    desk.laid();
    return new Idle();
  }

  cancel(desk: Desk): State {
    desk.laid();
    return new Idle();
  }
}
