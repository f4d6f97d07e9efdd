import type { State, Touch } from "../tool.ts";
import { Panning } from "./panning.ts";
import { Pointing } from "./pointing.ts";

/** Nothing is held. */
export class Idle implements State {
  readonly name = "idle";

  press(touch: Touch): State {
    return touch.second ? new Panning(touch) : new Pointing(touch);
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
