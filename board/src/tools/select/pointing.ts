import { apart } from "../distance.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { DraggingHandle } from "./dragging-handle.ts";
import { Idle } from "./idle.ts";
import { Panning } from "./panning.ts";
import { Pinching } from "./pinching.ts";

/** A hand that has come down and may yet hold still, in pixels. */
const STILL = { mouse: 3, pen: 4, touch: 8 };

/** Pressed, and not yet moved: lifting chooses what is there, moving drags it. */
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
    const first = this.#first;
    if (touch.pointer !== first.pointer || apart(touch.at, first.at) <= STILL[first.kind]) return this;
    const next = first.under.on === "handle" ? new DraggingHandle(first, first.under.handle, desk) : new Panning(first);
    return next.move(touch, desk);
  }

  lift(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    desk.choose(this.#first.under, this.#first.at);
    return new Idle();
  }

  cancel(): State {
    return new Idle();
  }
}
