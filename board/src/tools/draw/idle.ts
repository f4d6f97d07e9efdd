import { Panning } from "../select/panning.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Drawing } from "./drawing.ts";

/** The pencil is up. */
export class Idle implements State {
  readonly name = "idle";

  press(touch: Touch, desk: Desk): State {
    return touch.second ? new Panning(touch) : new Drawing(touch, desk);
  }

  move(): State {
    return this;
  }

  lift(): State {
    return this;
  }

  cancel(desk: Desk): State {
    desk.unink();
    return this;
  }
}
