import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../wire/types.ts";
import { lying, moved, movedBack } from "./joint.ts";

const near = (a: Point, b: Point) => a.every((value, k) => Math.abs(value - b[k]!) < 1e-9);
const step = (share: number, angle: number, x: number) => ({ share, angle, x, y: 0, gap_mm: 10 * share, degrees: null });

test("a placed point is mirrored, then turned, then shifted", () => {
  const quarter = { angle: Math.PI / 2, x: 10, y: 0, mirrored: true };
  assert.ok(near(moved(quarter, [3, 1]), [9, -3]));
  assert.ok(!near(moved({ ...quarter, mirrored: false }, [3, 1]), [9, -3]));
});

test("what was placed can be taken back", () => {
  for (const mirrored of [true, false]) {
    const motion = { angle: 0.7, x: 5, y: -8, mirrored };
    assert.ok(near(movedBack(motion, moved(motion, [12, 34])), [12, 34]));
  }
});

test("between two steps side b is turned on evenly, and the short way round", () => {
  const steps = [step(0, 3.1, 0), step(1, 3.1 - 2 * Math.PI + 0.2, 8)];
  assert.ok(Math.abs(lying(steps, 0.5).angle - 3.2) < 1e-9);
  assert.equal(lying(steps, 0.25).x, 2);
  assert.equal(lying(steps, 0.25).gap_mm, 0);
  assert.equal(lying(steps, 0.75).gap_mm, 10);
});

test("a share beside the seam is its end", () => {
  const steps = [step(0, 0, 0), step(1, 1, 8)];
  assert.equal(lying(steps, -1).x, 0);
  assert.equal(lying(steps, 2).angle, 1);
});
