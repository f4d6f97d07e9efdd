import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../../wire/types.ts";
import { apart } from "../distance.ts";
import type { State, Touch } from "../tool.ts";
import type { TraceDesk } from "./desk.ts";
import { Idle } from "./idle.ts";

/** A hand over a picture on which one place, (50, 50), was traced before. */
class Hand {
  state: State = new Idle();
  done: string[] = [];
  desk = {
    aim: () => undefined,
    pan: (dx: number, dy: number) => this.done.push(`pan ${dx} ${dy}`),
    zoom: () => this.done.push("zoom"),
    measured: () => this.done.push("enough"),
    taken: (touch: Touch): Point | null => (apart(touch.at, [50, 50]) < 8 ? [50, 50] : null),
    put: (touch: Touch, on: Point | null) => this.done.push(`put ${touch.at.join()} ${on ? "on a point" : ""}`.trim()),
    carry: (_from: Point, touch: Touch) => this.done.push(`carry ${touch.at.join()}`),
    carried: (_from: Point, touch: Touch) => this.done.push(`carried ${touch.at.join()}`),
    uncarried: () => this.done.push("left"),
  } as unknown as TraceDesk;

  touch = (at: Point, more: Partial<Touch> = {}): Touch => ({ pointer: 1, kind: "mouse", at, under: { on: "paper" }, shift: false, alt: false, second: false, ...more });
  press(at: Point, more: Partial<Touch> = {}): this {
    this.state = this.state.press(this.touch(at, more), this.desk);
    return this;
  }
  move(at: Point, more: Partial<Touch> = {}): this {
    this.state = this.state.move(this.touch(at, more), this.desk);
    return this;
  }
  lift(at: Point): this {
    this.state = this.state.lift(this.touch(at), this.desk);
    return this;
  }
}

test("a press puts a point down where it began, though the hand shakes", () => {
  assert.deepEqual(new Hand().press([10, 10]).move([12, 11]).lift([12, 11]).done, ["put 10,10"]);
});

test("a drag over bare paper moves the paper, and puts nothing down", () => {
  assert.deepEqual(new Hand().press([10, 10]).move([30, 10]).lift([30, 10]).done, ["pan 20 0"]);
});

test("a point is pressed again, or carried", () => {
  assert.deepEqual(new Hand().press([52, 50]).lift([52, 50]).done, ["put 52,50 on a point"]);
  assert.deepEqual(new Hand().press([52, 50]).move([70, 60]).move([71, 60]).lift([71, 60]).done, ["carry 70,60", "carry 71,60", "carried 71,60"]);
});

test("Escape leaves a carried point where it was", () => {
  const hand = new Hand().press([52, 50]).move([70, 60]);
  hand.state = hand.state.cancel(hand.desk);
  assert.equal(hand.done.at(-1), "left");
  assert.equal(hand.state.name, "idle");
});

test("two fingers move the paper and put nothing down", () => {
  const hand = new Hand().press([10, 10], { kind: "touch" }).press([90, 10], { kind: "touch", pointer: 2 });
  assert.equal(hand.state.name, "pinching");
  hand.lift([10, 10]);
  assert.deepEqual(hand.done, []);
});
