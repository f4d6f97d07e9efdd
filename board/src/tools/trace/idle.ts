import { Panning } from "../select/panning.ts";
import type { State, Touch } from "../tool.ts";
import type { TraceDesk } from "./desk.ts";
import { Pointing } from "./pointing.ts";

/** Nothing is pressed. */
export class Idle implements State {
  readonly name = "idle";

  press(touch: Touch, desk: TraceDesk): State {
    return touch.second ? new Panning(touch) : new Pointing(touch, desk.taken(touch));
  }

  move(touch: Touch, desk: TraceDesk): State {
    desk.aim(touch);
    return this;
  }

  lift(): State {
    return this;
  }

  cancel(desk: TraceDesk): State {
    desk.measured();
    return this;
  }
}
