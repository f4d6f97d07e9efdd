import assert from "node:assert/strict";
import { test } from "node:test";
import { crowded, hasCode } from "./label.ts";

const back = { label: "Underarm back", code: "UB", box: [0, 0, 100, 300] as [number, number, number, number] };
const halter = { label: "Halter", code: "HALTER", box: [0, 0, 30, 800] as [number, number, number, number] };

test("names give way to codes where one of them is wider than its piece", () => {
  assert.equal(crowded([back], 1, 13), false);
  assert.equal(crowded([back], 0.5, 13), true);
  assert.equal(crowded([back], 1, 20), true);
});

test("a code as long as the name helps nobody", () => {
  assert.equal(hasCode(halter), false);
  assert.equal(crowded([halter], 0.5, 13), false);
});
