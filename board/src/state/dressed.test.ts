import assert from "node:assert/strict";
import { test } from "node:test";
import type { BodyLine, Panel } from "../wire/body.ts";
import type { Point } from "../wire/types.ts";
import { goesRound, onBody, onPaper, taped } from "./dressed.ts";

/** A square of paper, 10 by 10, stood upright in front of the body at y = 50; of a left panel the triangles turn round. */
const square = (triangles: number[]): Panel => ({
  piece: "CF",
  hand: "right",
  flat: [0, 0, 10, 0, 10, 10, 0, 10],
  body: [0, 50, 0, 10, 50, 0, 10, 50, 10, 0, 50, 10],
  triangles,
});

test("a place of the paper lies at the same place on the wearer, whichever way the triangles run", () => {
  for (const triangles of [[0, 1, 2, 0, 2, 3], [2, 1, 0, 3, 2, 0]]) {
    const place = onBody(square(triangles), [3, 7])!;
    assert.ok(place.every((value, axis) => Math.abs(value - [3, 50, 7][axis]!) < 1e-9));
  }
});

test("beside the piece there is no place on the wearer", () => {
  assert.equal(onBody(square([0, 1, 2, 0, 2, 3]), [12, 5]), null);
});

test("a place on the wearer is found on the paper", () => {
  assert.deepEqual(onPaper(square([0, 1, 2, 0, 2, 3]), 1, [0.5, 0, 0.5]), [0, 5]);
});

const level = (...points: number[]): BodyLine => ({ line: "waist", kind: "level", piece: "CF", hand: "right", points });

test("lines go round where each end meets another", () => {
  const [front, back] = [level(100, 0, 0, 0, 100, 0, -100, 0, 0), level(-100, 0, 0, 0, -100, 0, 95, 0, 0)];
  assert.ok(goesRound([front, back]));
  assert.ok(!goesRound([front]));
  assert.ok(!goesRound([front, level(-100, 0, 0, 0, -100, 0)]));
  assert.ok(!goesRound([]));
});

test("a tape bridges dents", () => {
  // A prism whose cross-section is a square of 100 with one corner pushed in to its middle.
  const ring: Point[] = [[0, 0], [100, 0], [50, 50], [0, 100]];
  const points = [0, 20].flatMap((z) => ring.flatMap(([x, y]) => [x, y, z]));
  const triangles = ring.flatMap((_, k) => {
    const next = (k + 1) % 4;
    return [k, next, 4 + next, k, 4 + next, 4 + k];
  });
  const straight = 200 + Math.hypot(100, 100);
  assert.ok(Math.abs(taped({ points, triangles }, 10) - straight) < 1e-6);
  assert.equal(taped({ points, triangles }, 30), 0);
});
