import { Panning } from "../select/panning.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Pointing } from "./pointing.ts";

/** Nothing is pressed. */
export class Idle implements State {
  readonly name = "idle";

  press(touch: Touch): State {
    return touch.second ? new Panning(touch) : new Pointing(touch);
  }

  move(touch: Touch, desk: Desk): State {
    desk.aim(touch);
    return this;
  }

  lift(): State {
    return this;
  }

  cancel(desk: Desk): State {
    desk.measured();
    return this;
  }
}
