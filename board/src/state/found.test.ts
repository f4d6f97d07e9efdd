import assert from "node:assert/strict";
import { test } from "node:test";
import type { Finding } from "../wire/types.ts";
import { foundNear, placed } from "./found.ts";

const finding = (piece?: string, at?: [number, number]): Finding =>
  ({ code: "x", severity: "advice", subject: "s", message: "m", remedy: "r", value: 0, limit: 0, unit: "mm", ...(piece ? { piece } : {}), ...(at ? { at } : {}) }) as Finding;

test("only findings with a place are found, under their number in the list", () => {
  const found = placed([finding(), finding("CF", [0, 10]), finding("SF"), finding("SF", [5, 5])]);
  assert.deepEqual(found.map(({ k, piece }) => [k, piece]), [
    [1, "CF"],
    [3, "SF"],
  ]);
});

test("the nearest one on the piece counts, and none that is farther off or on another piece", () => {
  const found = placed([finding("CF", [0, 0]), finding("CF", [8, 0]), finding("SF", [7, 0])]);
  assert.equal(foundNear(found, "CF", [7, 0], 12), 1);
  assert.equal(foundNear(found, "CF", [3, 0], 12), 0);
  assert.equal(foundNear(found, "CF", [40, 0], 12), null);
  assert.equal(foundNear(found, "CB", [0, 0], 12), null);
});
