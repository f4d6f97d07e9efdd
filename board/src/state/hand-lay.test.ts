import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../wire/types.ts";
import { boxOf, isFree, lengthOf, moveOf, placed, pushed, STILL, turnedRound, withMove, type Cloth, type Lying, type Move } from "./hand-lay.ts";

const box = (x: number, y: number, wide: number, high: number, on_fold = false): Lying => ({
  outline: [
    [x, y],
    [x + wide, y],
    [x + wide, y + high],
    [x, y + high],
  ],
  box: [x, y, x + wide, y + high],
  on_fold,
});

const cloth = (...pieces: Lying[]): Cloth => ({ width_mm: 700, spacing_mm: 2, pieces });
const near = (a: number, b: number, by = 0.1): void => assert.ok(Math.abs(a - b) <= by, `${a} is not ${b}`);

test("a piece goes where there is nothing in the way", () => {
  const table = cloth(box(0, 0, 100, 100));
  assert.deepEqual(pushed(table, [STILL], 0, { turned: false, x: 250, y: 300 }), { turned: false, x: 250, y: 300 });
});

test("it stops before another at the least distance, and never jumps over one", () => {
  const table = cloth(box(0, 0, 100, 100), box(200, 0, 50, 700));
  const stopped = pushed(table, [STILL, STILL], 0, { turned: false, x: 400, y: 0 });
  near(boxOf(table.pieces[0]!, stopped)[2], 198);
});

test("it slides along what is in the way, and stays on the cloth", () => {
  const table = cloth(box(0, 0, 100, 100), box(200, 0, 50, 300));
  const slid = pushed(table, [STILL, STILL], 0, { turned: false, x: 150, y: 500 });
  near(slid.y, 500);
  const outside = pushed(table, [STILL, STILL], 0, { turned: false, x: -80, y: 900 });
  near(outside.x, 0);
  near(outside.y, 600);
});

test("a piece on the fold never leaves it", () => {
  const table = cloth(box(0, 0, 100, 100, true));
  assert.deepEqual(pushed(table, [STILL], 0, { turned: false, x: 40, y: 70 }), { turned: false, x: 40, y: 0 });
  assert.equal(isFree(table, [STILL], 0, { turned: false, x: 0, y: 5 }), false);
});

test("turned round it takes the same box; on the fold its edge stays there", () => {
  const outline: Point[] = [
    [0, 0],
    [90, 0],
    [90, 10],
    [0, 60],
  ];
  const free: Lying = { outline, box: [0, 0, 90, 60], on_fold: false };
  const turned: Move = { turned: true, x: 5, y: 0 };
  assert.deepEqual(placed(free, turned)[3], [95, 0]);
  assert.deepEqual(placed({ ...free, on_fold: true }, turned)[3], [95, 60]);
  assert.deepEqual(turnedRound(cloth(free), [STILL], 0), { turned: true, x: 0, y: 0 });
});

test("what has no room to turn stays as it is, and says so", () => {
  const wedge: Lying = { outline: [[0, 0], [300, 0], [0, 300]], box: [0, 0, 300, 300], on_fold: false };
  const shut: Cloth = { width_mm: 300, spacing_mm: 2, pieces: [wedge, { outline: [[302, 3], [302, 300], [5, 300]], box: [5, 3, 302, 300], on_fold: false }, box(310, 0, 100, 300)] };
  assert.equal(turnedRound(shut, [STILL, STILL, STILL], 0), null);
});

test("a piece inside another is never free, nor one whose edge crosses another's", () => {
  const table = cloth(box(0, 0, 300, 300), box(400, 0, 50, 50));
  assert.equal(isFree(table, [STILL, STILL], 1, { turned: false, x: -300, y: 100 }), false);
  assert.equal(isFree(table, [STILL, STILL], 1, { turned: false, x: -120, y: 0 }), false);
  assert.equal(isFree(table, [STILL, STILL], 1, { turned: false, x: -98, y: 0 }), true);
  near(lengthOf(table, [STILL, { turned: false, x: -98, y: 0 }]), 352);
});

test("pushes of one piece are one move; another piece begins another", () => {
  const pushed = (piece: string, number: number, x: number) => ({ piece, number, turned: false, x, y: 0 });
  const moves = [pushed("SF", 0, 5), pushed("SF", 0, 10), pushed("SF", 1, 5), pushed("CF", 0, 5), pushed("SF", 0, 15)].reduce(withMove, []);
  assert.deepEqual(moves, [pushed("SF", 0, 10), pushed("SF", 1, 5), pushed("CF", 0, 5), pushed("SF", 0, 15)]);
  assert.equal(moveOf({ piece: "SF", number: 1 }, moves)?.x, 5);
  assert.equal(moveOf({ piece: "SB", number: 0 }, moves), undefined);
});
