import assert from "node:assert/strict";
import { test } from "node:test";
import { arrowHead, beside, ends, foldBracket, ticks } from "./path.ts";

test("the ends of a path", () => {
  assert.deepEqual(ends("M-1.5 2C3 4 5 6 7 -8e-1"), [[-1.5, 2], [7, -0.8]]);
  assert.deepEqual(ends("M0,0L10,5"), [[0, 0], [10, 5]]);
});

test("beside is to the left of the way", () => {
  assert.deepEqual(beside([0, 0], [10, 0], 0.5, 2), [5, 2]);
  assert.deepEqual(beside([0, 0], [0, 10], 0, 2), [-2, 0]);
});

test("a double notch stands on both sides of its place", () => {
  assert.equal(ticks([0, 0], [0, 10], 1, 3), "M0 0L0 10");
  assert.equal(ticks([0, 0], [0, 10], 2, 3), "M1.5 0L1.5 10M-1.5 0L-1.5 10");
});

test("the fold bracket lies in the piece, its feet at the fold", () => {
  // Up along x = 0, as a centre front runs: the piece is at x < 0.
  const numbers = foldBracket([0, 0], [0, 300], 12).match(/-?[\d.]+/g)!.map(Number);
  const across = numbers.filter((_, k) => k % 2 === 0);
  assert.ok(across.every((x) => x < 0 && x > -16), across.join());
  assert.ok(across.includes(-1) && across.includes(-12));
});

test("an arrow's head ends at its point", () => {
  assert.match(arrowHead([0, 0], [100, 0], 10), /L100 0L/);
});
