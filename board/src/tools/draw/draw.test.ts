import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../../wire/types.ts";
import type { Desk, State, Touch } from "../tool.ts";
import { Idle } from "./idle.ts";

/** A hand with a pencil; a pixel is half a mm. */
class Hand {
  state: State = new Idle();
  done: string[] = [];
  desk = {
    onPaper: ([x, y]: Point): Point => [x / 2, -y / 2],
    pan: () => this.done.push("pan"),
    zoom: () => this.done.push("zoom"),
    ink: (line: Point[]) => this.done.push(`ink ${line.length}`),
    inked: (line: Point[]) => this.done.push(`inked ${line.map((point) => point.join()).join(" ")}`),
    unink: () => this.done.push("unink"),
  } as unknown as Desk;

  touch(at: Point, more: Partial<Touch> = {}): Touch {
    return { pointer: 1, kind: "pen", at, under: { on: "paper" }, shift: false, alt: false, second: false, ...more };
  }
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

test("a line is drawn where the pencil goes", () => {
  const hand = new Hand().press([0, 0]).move([10, 0]).move([10.5, 0]).move([20, 10]).lift([20, 10]);
  assert.deepEqual(hand.done, ["ink 2", "ink 3", "inked 0,0 5,0 10,-5"]);
  assert.equal(hand.state.name, "idle");
});

test("a dot is no line", () => assert.deepEqual(new Hand().press([0, 0]).move([5, 0]).lift([5, 0]).done.at(-1), "unink"));

test("Escape rubs the line out", () => {
  const hand = new Hand().press([0, 0]).move([50, 0]);
  hand.state = hand.state.cancel(hand.desk);
  assert.equal(hand.done.at(-1), "unink");
  assert.equal(hand.state.name, "idle");
});

test("with two fingers the paper is moved and nothing is drawn; a hand beside the pen disturbs nothing", () => {
  const fingers = new Hand().press([0, 0], { kind: "touch" }).move([30, 0], { kind: "touch" }).press([90, 0], { kind: "touch", pointer: 2 });
  assert.deepEqual(fingers.done, ["ink 2", "unink"]);
  assert.equal(fingers.state.name, "pinching");
  const pen = new Hand().press([0, 0]).move([30, 0]).press([90, 0], { kind: "touch", pointer: 2 }).move([99, 0], { kind: "touch", pointer: 2 });
  assert.deepEqual(pen.done, ["ink 2"]);
  assert.equal(pen.state.name, "drawing");
});

test("the second button moves the paper", () => assert.deepEqual(new Hand().press([0, 0], { second: true }).move([9, 0], { second: true }).done, ["pan"]));
