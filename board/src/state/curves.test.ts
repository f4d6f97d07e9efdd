import assert from "node:assert/strict";
import { test } from "node:test";
import { cubics, nearest, offLine, pathLength, walked } from "./curves.ts";

// A quarter of a circle of radius 100, as a cubic that is right to 0.03 mm.
const K = 55.22847;
const QUARTER = `M100 0C100 ${K} ${K} 100 0 100`;
const near = (is: number, should: number, by = 0.05) => assert.ok(Math.abs(is - should) <= by, `${is} is not ${should}`);

test("a path's length is that of its curve", () => {
  near(pathLength(QUARTER), 50 * Math.PI);
  near(pathLength("M0 0L30 40"), 50, 1e-9);
  near(pathLength("M0 0L30 0L30 40Z"), 120, 1e-9);
});

test("curves follow one another without a letter of their own", () => {
  assert.equal(cubics("M0 0C1 1 2 1 3 0 4 -1 5 -1 6 0").length, 2);
  assert.equal(cubics("M0 0L1 0 2 0 3 0").length, 3);
});

test("the nearest place is on the curve, and known by its length from the start", () => {
  const found = nearest(QUARTER, [200, 200]);
  near(found.at[0], 100 * Math.SQRT1_2);
  near(found.along, 25 * Math.PI);
  near(found.off, 200 * Math.SQRT2 - 100);
  assert.deepEqual(nearest("M0 0L10 0", [-5, 0]), { at: [0, 0], along: 0, off: 5 });
});

test("a walk leaves no gap, and a point beside it is as far off as it is", () => {
  const points = walked("M0 0L10 0L10 9", 2);
  for (let k = 1; k < points.length; k++) assert.ok(Math.hypot(points[k]![0] - points[k - 1]![0], points[k]![1] - points[k - 1]![1]) <= 2 + 1e-9);
  assert.deepEqual(points.at(-1), [10, 9]);
  assert.equal(offLine(points, [4.5, 3]), 3);
});
