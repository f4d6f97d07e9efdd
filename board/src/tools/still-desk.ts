import type { Desk } from "./tool.ts";

const nothing = (): void => {};

/** A desk on which nothing can be done: what some paper is good for is put over it. */
export const STILL_DESK: Desk = {
  onPiece: (_piece, at) => at,
  onPaper: (at) => at,
  pan: nothing,
  zoom: nothing,
  choose: nothing,
  drag: nothing,
  drop: nothing,
  leave: nothing,
  ink: nothing,
  inked: nothing,
  unink: nothing,
  aim: nothing,
  measure: nothing,
  measured: nothing,
  onPicture: () => false,
  shift: nothing,
  hold: nothing,
  laid: nothing,
};
