import assert from "node:assert/strict";
import { test } from "node:test";
import type { Handle, Point } from "../../wire/types.ts";
import type { Desk, State, Touch, Under } from "../tool.ts";
import { Idle } from "./idle.ts";

const centre: Handle = {
  step: "neckline", name: "centre", label: "height at centre front", piece: "CF",
  at: [0, 100], way: [[0, 0], [0, 200]], anywhere: false,
};

/** A hand on a desk where 2 px are 1 mm; what it makes the desk do is written down. */
class Hand {
  state: State = new Idle();
  done: string[] = [];
  desk: Desk = {
    onPiece: (_piece, [x, y]) => [x / 2, -y / 2],
    pan: (dx, dy) => this.done.push(`pan ${dx} ${dy}`),
    zoom: (factor, at) => this.done.push(`zoom ${factor} at ${at.join()}`),
    choose: (under) => this.done.push(`choose ${under.on}`),
    drag: (handle, to, free) => this.done.push(`drag ${handle.name} to ${to.join()}${free ? " free" : ""}`),
    drop: () => this.done.push("drop"),
    leave: () => this.done.push("leave"),
    onPaper: ([x, y]) => [x / 2, -y / 2],
    ink: () => this.done.push("ink"),
    inked: () => this.done.push("inked"),
    unink: () => this.done.push("unink"),
    aim: () => this.done.push("aim"),
    measure: () => this.done.push("measure"),
    measured: () => this.done.push("measured"),
    onPicture: () => false,
    shift: () => this.done.push("shift"),
    hold: () => this.done.push("hold"),
    laid: () => this.done.push("laid"),
  };

  touch(at: Point, more: Partial<Touch> = {}): Touch {
    return { pointer: 1, kind: "mouse", at, under: { on: "paper" }, shift: false, alt: false, second: false, ...more };
  }

  press(at: Point, under: Under = { on: "paper" }, more: Partial<Touch> = {}): this {
    this.state = this.state.press(this.touch(at, { under, ...more }), this.desk);
    return this;
  }

  move(at: Point, more: Partial<Touch> = {}): this {
    this.state = this.state.move(this.touch(at, more), this.desk);
    return this;
  }

  lift(at: Point, more: Partial<Touch> = {}): this {
    this.state = this.state.lift(this.touch(at, more), this.desk);
    return this;
  }
}

const handle: Under = { on: "handle", handle: centre };

test("a press without moving chooses", () => {
  const hand = new Hand().press([10, 10], { on: "piece", piece: "CF" }).move([12, 11]).lift([12, 11]);
  assert.deepEqual(hand.done, ["choose piece"]);
  assert.equal(hand.state.name, "idle");
});

test("a handle goes by as much as the hand, wherever it was gripped, and is dropped", () => {
  const hand = new Hand().press([3, -195], handle).move([3, -235]).move([3, -241]).lift([3, -241]);
  assert.deepEqual(hand.done, ["drag centre to 0,120", "drag centre to 0,123", "drop"]);
});

test("a hand that trembles on a handle moves nothing", () => {
  const hand = new Hand().press([0, 0], handle).move([0, 3]).lift([0, 3]);
  assert.deepEqual(hand.done, ["choose handle"]);
});

test("with Alt the handle is free of the levels; Escape puts it back", () => {
  const hand = new Hand().press([0, -200], handle).move([0, -220], { alt: true });
  hand.state = hand.state.cancel(hand.desk);
  assert.deepEqual(hand.done, ["drag centre to 0,110 free", "leave"]);
  assert.equal(hand.state.name, "idle");
});

test("paper and pieces are moved by dragging, and a handle is not taken by the second button", () => {
  assert.deepEqual(new Hand().press([0, 0]).move([10, 5]).move([11, 5]).lift([11, 5]).done, ["pan 10 5", "pan 1 0"]);
  assert.deepEqual(new Hand().press([0, 0], handle, { second: true }).move([1, 0]).done, ["pan 1 0"]);
});

test("two fingers move and zoom; one that is lifted leaves the other moving the paper", () => {
  const [first, second] = [{ kind: "touch", pointer: 1 }, { kind: "touch", pointer: 2 }] as const;
  const hand = new Hand().press([0, 0], undefined, first).press([100, 0], undefined, second).move([200, 0], second);
  assert.deepEqual(hand.done, ["pan 50 0", "zoom 2 at 100,0"]);
  hand.lift([0, 0], first).move([210, 0], second);
  assert.deepEqual(hand.done.slice(2), ["pan 10 0"]);
  assert.equal(hand.lift([210, 0], second).state.name, "idle");
});

test("a second finger does not disturb a handle that is held", () => {
  const hand = new Hand().press([0, -200], handle).move([0, -220]).press([50, 50], undefined, { pointer: 2 });
  hand.move([60, 50], { pointer: 2 }).lift([60, 50], { pointer: 2 });
  assert.deepEqual(hand.done, ["drag centre to 0,110"]);
  assert.equal(hand.state.name, "dragging");
});
