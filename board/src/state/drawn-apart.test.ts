import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../wire/types.ts";
import { drawnApart, type Placed } from "./drawn-apart.ts";

const upright = (key: string, at: Point): Placed => ({ key, at, way: [[at[0], 0], [at[0], 100]] });
const level = (key: string, at: Point): Placed => ({ key, at, way: [[0, at[1]], [100, at[1]]] });

/** Where they are on the screen, px, y down. */
function drawn(handles: Placed[], scale: number): Point[] {
  const shifts = drawnApart(handles, scale);
  return handles.map(({ key, at }) => [at[0] * scale + (shifts.get(key)?.[0] ?? 0), -at[1] * scale + (shifts.get(key)?.[1] ?? 0)]);
}

test("two that lie on each other stand side by side, at their own heights", () => {
  assert.deepEqual(drawn([upright("zip", [50, 20]), upright("hem", [50, 22])], 2), [[84, -40], [116, -44]]);
});

test("those that run across stand above each other", () => {
  assert.deepEqual(drawn([level("a", [50, 20]), level("b", [50, 20])], 1), [[50, -4], [50, -36]]);
});

test("of three no two are nearer than two alone", () => {
  const places = drawn([upright("a", [0, 0]), upright("b", [5, 0]), upright("c", [2, 0])], 1).map(([x]) => x).sort((a, b) => a - b);
  assert.ok(places.slice(1).every((x, k) => x - places[k]! >= 32));
});

test("those that have room stay where they are, and closer by they have it", () => {
  const pair = [upright("a", [0, 0]), upright("b", [10, 0])];
  assert.equal(drawnApart(pair, 1).size, 2);
  assert.equal(drawnApart(pair, 2).size, 0);
});
