import assert from "node:assert/strict";
import { test } from "node:test";
import { landing, sentBy } from "./order.ts";

const middles = [10, 30, 50, 70];

test("a row lands behind the others whose middle it has passed", () => {
  assert.equal(landing(middles, 0, 5), 0);
  assert.equal(landing(middles, 0, 29), 0);
  assert.equal(landing(middles, 0, 31), 1);
  assert.equal(landing(middles, 0, 500), 3);
  assert.equal(landing(middles, 3, -500), 0);
  assert.equal(landing(middles, 3, 49), 2);
});

test("a row that is let go over its own place stays", () => {
  for (let from = 0; from < middles.length; from++) assert.equal(landing(middles, from, middles[from]!), from);
});

test("keys send a row one place or to an end, and never out of the list", () => {
  assert.deepEqual(["ArrowUp", "ArrowDown", "Home", "End", "a"].map((key) => sentBy(key, 1, 4)), [0, 2, 0, 3, 1]);
  assert.deepEqual(["ArrowUp", "ArrowDown"].map((key) => sentBy(key, 0, 1)), [0, 0]);
});
