import type { PictureGrip } from "../state/laid-picture.ts";
import type { Handle, Point } from "../wire/types.ts";

/** What lies under the hand; a grip of the picture with its own place on the paper, mm. */
export type Under =
  | { on: "handle"; handle: Handle }
  | { on: "edge"; piece: string; edge: string }
  | { on: "piece"; piece: string }
  | { on: "picture-grip"; grip: PictureGrip; at: Point }
  | { on: "paper" };

/** One pointer, as it is now. `at` is on the screen of the drawing, in pixels. */
export interface Touch {
  pointer: number;
  kind: "mouse" | "pen" | "touch";
  at: Point;
  under: Under;
  shift: boolean;
  alt: boolean;
  /** The wheel's or second button: moves the paper. */
  second: boolean;
}

/** What a tool can do. The drawing gives it; a test writes down what was done. */
export interface Desk {
  /** From the screen to the piece's own mm. */
  onPiece(piece: string, at: Point): Point;
  /** From the screen to the paper that all pieces lie on, mm. */
  onPaper(at: Point): Point;
  pan(dx: number, dy: number): void;
  zoom(factor: number, at: Point): void;
  choose(under: Under, at: Point): void;
  drag(handle: Handle, to: Point, free: boolean): void;
  drop(): void;
  leave(): void;
  /** A line on the paper, mm, as far as it is drawn; then whole; then rubbed out. */
  ink(line: Point[]): void;
  inked(line: Point[]): void;
  unink(): void;
  /** What would be measured there; what is measured; and that it is enough. */
  aim(touch: Touch): void;
  measure(touch: Touch): void;
  measured(): void;
  /** Whether the picture to work from is there; it is moved by mm of the paper, and laid. */
  onPicture(at: Point): boolean;
  shift(dx: number, dy: number): void;
  /** One of its grips is drawn to a place of the paper. */
  hold(grip: PictureGrip, to: Point, free: boolean): void;
  laid(): void;
}

/** One state of a tool. Each returns the state that comes next. */
export interface State {
  readonly name: string;
  press(touch: Touch, desk: Desk): State;
  move(touch: Touch, desk: Desk): State;
  lift(touch: Touch, desk: Desk): State;
  /** Escape, a lost pointer, another tool. */
  cancel(desk: Desk): State;
}

/** A tool by its first state. */
export interface Tool {
  id: string;
  title: string;
  /** What to do, in a sentence, where it needs saying. */
  help?: string;
  /** It wants every place that the pointer passed, and not only those at which the screen was drawn. */
  fine?: boolean;
  begin(): State;
}
