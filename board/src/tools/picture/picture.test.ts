import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../../wire/types.ts";
import type { Desk, State, Touch, Under } from "../tool.ts";
import { Idle } from "./idle.ts";

/** A picture that covers the screen's first 100 pixels; a pixel is half a mm. */
function hand(...path: Point[]): string[] {
  return handOn({ on: "paper" }, ...path);
}

function handOn(under: Under, ...path: Point[]): string[] {
  const done: string[] = [];
  const desk = {
    onPaper: ([x, y]: Point): Point => [x / 2, -y / 2],
    onPicture: ([x]: Point) => x < 100,
    pan: (dx: number, dy: number) => done.push(`pan ${dx} ${dy}`),
    shift: (dx: number, dy: number) => done.push(`shift ${dx} ${dy}`),
    hold: (grip: string, to: Point, free: boolean) => done.push(`${grip} ${to.join()}${free ? " free" : ""}`),
    laid: () => done.push("laid"),
  } as unknown as Desk;
  const touch = (at: Point): Touch => ({ pointer: 1, kind: "mouse", at, under, shift: false, alt: false, second: false });
  let state: State = new Idle().press(touch(path[0]!), desk);
  for (const at of path.slice(1)) state = state.move(touch(at), desk);
  state = state.lift(touch(path.at(-1)!), desk);
  assert.equal(state.name, "idle");
  return done;
}

test("a picture goes with the hand, in mm of the paper, and is kept where it is laid", () => {
  assert.deepEqual(hand([50, 50], [60, 50], [60, 70]), ["shift 5 0", "shift 0 -10", "laid"]);
});

test("beside the picture the paper is moved", () => assert.deepEqual(hand([150, 0], [160, 5]), ["pan 10 5"]));

test("a grip is drawn by as much as the hand goes, from where the grip is", () => {
  const corner: Under = { on: "picture-grip", grip: "upper-right", at: [51, 2] };
  assert.deepEqual(handOn(corner, [100, 0], [110, -20]), ["upper-right 56,12", "laid"]);
});
