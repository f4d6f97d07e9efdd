import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../wire/types.ts";
import { CORNERS, cornerOf, sized, turned, turnedTo, widened, type Corner, type Lying } from "./laid-picture.ts";

const SHAPE = 1.5;
const laid: Lying = { x: 100, y: 50, width: 80, turn: 0 };
const across: Record<Corner, Corner> = { "upper-left": "lower-right", "upper-right": "lower-left", "lower-right": "upper-left", "lower-left": "upper-right" };
const near = (a: Point, b: Point) => assert.ok(Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-6, `${a.join()} is not ${b.join()}`);

test("corners lie half the width and height from the middle, turned with it", () => {
  near(cornerOf(laid, SHAPE, "upper-right"), [140, 110]);
  near(cornerOf({ ...laid, turn: 90 }, SHAPE, "upper-right"), [40, 90]);
});

for (const turn of [0, 30, -135]) {
  for (const corner of CORNERS) {
    test(`turned by ${turn}, ${corner}: a corner goes with the hand along its diagonal, and the one across stays`, () => {
      const lies = { ...laid, turn };
      const [fixed, held] = [cornerOf(lies, SHAPE, across[corner]), cornerOf(lies, SHAPE, corner)];
      const to: Point = [fixed[0] + 1.4 * (held[0] - fixed[0]), fixed[1] + 1.4 * (held[1] - fixed[1])];
      const larger = sized(lies, SHAPE, corner, to);
      assert.ok(Math.abs(larger.width - 112) < 1e-9);
      near(cornerOf(larger, SHAPE, corner), to);
      near(cornerOf(larger, SHAPE, across[corner]), fixed);
    });
  }
}

test("it is never turned inside out, and never lost", () => {
  const fixed = cornerOf(laid, SHAPE, "lower-left");
  const small = sized(laid, SHAPE, "upper-right", [-500, -500]);
  assert.equal(small.width, 20);
  near(cornerOf(small, SHAPE, "lower-left"), fixed);
  assert.equal(widened(laid, SHAPE, "upper-right", 1e6).width, 5000);
});

test("its upper edge looks at the hand", () => {
  assert.equal(turnedTo(laid, [100, 500], false).turn, 0);
  assert.equal(turnedTo(laid, [0, 50], false).turn, 90);
  assert.equal(turnedTo(laid, [200, 150], false).turn, -45);
});

test("near an upright position it snaps, unless free", () => {
  const to: Point = [100 + 1000 * Math.sin(Math.PI / 180), 50 + 1000 * Math.cos(Math.PI / 180)];
  assert.equal(turnedTo(laid, to, false).turn, 0);
  assert.equal(turnedTo(laid, to, true).turn, -1);
});

test("a turn is told from -180 to 180", () => {
  assert.equal(turned(laid, 190).turn, -170);
  assert.equal(turned(laid, -190).turn, 170);
  assert.equal(turned(laid, 360).turn, 0);
});
