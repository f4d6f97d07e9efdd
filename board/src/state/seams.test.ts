import assert from "node:assert/strict";
import { test } from "node:test";
import { stretch } from "./seams.ts";

const corner = "M0 0L10 0L10 30";

test("a stretch of an edge runs from share to share of its length", () => {
  const points = stretch(corner, 0.5, 0.125);
  assert.deepEqual(points[0], [5, 0]);
  assert.ok(points.some(([x, y]) => x === 10 && y === 0));
  assert.ok(Math.abs(points.at(-1)![1] - 10) < 1e-9);
});

test("the whole of an edge is a stretch too", () => {
  const points = stretch(corner, 0, 1);
  assert.deepEqual([points[0], points.at(-1)], [[0, 0], [10, 30]]);
});
