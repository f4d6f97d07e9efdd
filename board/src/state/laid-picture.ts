import type { Point } from "../wire/types.ts";

/** How a picture lies on the paper: its middle and width in mm, turned to the left in degrees. */
export interface Lying {
  x: number;
  y: number;
  width: number;
  turn: number;
}

export const CORNERS = ["upper-left", "upper-right", "lower-right", "lower-left"] as const;
export type Corner = (typeof CORNERS)[number];
/** What a picture is held by: a corner sizes it, the grip above it turns it. */
export type PictureGrip = Corner | "turn";

export const NARROWEST = 20; // mm
export const WIDEST = 5000;
const UPRIGHT = 90; // degrees
const SNAPS = 2;

const SIDES: Record<Corner, Point> = { "upper-left": [-1, 1], "upper-right": [1, 1], "lower-right": [1, -1], "lower-left": [-1, -1] };

/** A place of the picture on the paper: from its middle, in halves of its width and height; `shape` is height to width. */
export function placeOn({ x, y, width, turn }: Lying, shape: number, [right, up]: Point): Point {
  const angle = (turn * Math.PI) / 180;
  const [u, v] = [(right * width) / 2, (up * width * shape) / 2];
  return [x + u * Math.cos(angle) - v * Math.sin(angle), y + u * Math.sin(angle) + v * Math.cos(angle)];
}

export const cornerOf = (lies: Lying, shape: number, corner: Corner): Point => placeOn(lies, shape, SIDES[corner]);

/** The picture of another width; the corner across from the one that is held stays where it is. */
export function widened(lies: Lying, shape: number, corner: Corner, width: number): Lying {
  const [right, up] = SIDES[corner];
  const held = Math.min(WIDEST, Math.max(NARROWEST, width));
  const [fixed, moved] = [lies, { ...lies, width: held }].map((each) => placeOn(each, shape, [-right, -up])) as [Point, Point];
  return { ...lies, width: held, x: lies.x + fixed[0] - moved[0], y: lies.y + fixed[1] - moved[1] };
}

/** The picture with a corner drawn to a place, as near as its shape allows. */
export function sized(lies: Lying, shape: number, corner: Corner, to: Point): Lying {
  const [right, up] = SIDES[corner];
  const [ox, oy] = placeOn(lies, shape, [-right, -up]);
  const [cx, cy] = placeOn(lies, shape, [right, up]);
  const [dx, dy] = [cx - ox, cy - oy];
  const share = ((to[0] - ox) * dx + (to[1] - oy) * dy) / (dx * dx + dy * dy);
  return widened(lies, shape, corner, share * lies.width);
}

/** The picture turned so that its upper edge looks at a place; near an upright or level position it snaps, unless free. */
export function turnedTo(lies: Lying, [x, y]: Point, free: boolean): Lying {
  const angle = (Math.atan2(y - lies.y, x - lies.x) * 180) / Math.PI - UPRIGHT;
  const near = Math.round(angle / UPRIGHT) * UPRIGHT;
  return turned(lies, !free && Math.abs(angle - near) <= SNAPS ? near : angle);
}

/** The picture turned by so many degrees to the left, told from −180 to 180. */
export function turned(lies: Lying, degrees: number): Lying {
  const rest = (((degrees + 180) % 360) + 360) % 360;
  return { ...lies, turn: Math.round(10 * (rest - 180)) / 10 };
}
