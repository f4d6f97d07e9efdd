import type { Point } from "../../wire/types.ts";
import { apart } from "../distance.ts";
import { Pinching } from "../select/pinching.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Idle } from "./idle.ts";

/** A line of fewer pixels is a slip of the hand. */
const SHORTEST = 12;
/** Places nearer to one another say nothing new, in pixels. */
const CLOSE = 1.5;

/** A line is drawn. */
export class Drawing implements State {
  readonly name = "drawing";
  readonly #first: Touch;
  #last: Point;
  #length = 0;
  readonly #line: Point[];

  constructor(first: Touch, desk: Desk) {
    this.#first = first;
    this.#last = first.at;
    this.#line = [desk.onPaper(first.at)];
  }

  press(touch: Touch, desk: Desk): State {
    if (touch.pointer === this.#first.pointer) return this;
    // A pen's line goes on when the hand is laid on the paper; with a second finger the paper is moved.
    if (this.#first.kind !== "touch") return this;
    desk.unink();
    return new Pinching({ ...this.#first, at: this.#last }, touch);
  }

  move(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    const gone = apart(this.#last, touch.at);
    if (gone < CLOSE) return this;
    this.#length += gone;
    this.#last = touch.at;
    this.#line.push(desk.onPaper(touch.at));
    desk.ink([...this.#line]);
    return this;
  }

  lift(touch: Touch, desk: Desk): State {
    if (touch.pointer !== this.#first.pointer) return this;
    if (this.#length < SHORTEST) desk.unink();
    else desk.inked([...this.#line]);
    return new Idle();
  }

  cancel(desk: Desk): State {
    desk.unink();
    return new Idle();
  }
}
