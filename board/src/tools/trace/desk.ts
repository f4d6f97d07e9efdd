import type { Point } from "../../wire/types.ts";
import type { Desk, Touch } from "../tool.ts";

/** What tracing can do over a picture, besides moving it. Places are pixels of the picture, y down. */
export interface TraceDesk extends Desk {
  /** The place traced before that lies under the hand. */
  taken(touch: Touch): Point | null;
  /** A place is pressed; `on` is the one that was there already. */
  put(touch: Touch, on: Point | null): void;
  /** A place is carried somewhere; then let go there; or left where it was. */
  carry(from: Point, touch: Touch): void;
  carried(from: Point, touch: Touch): void;
  uncarried(): void;
}
