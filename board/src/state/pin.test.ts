import assert from "node:assert/strict";
import { test } from "node:test";
import type { Piece } from "../wire/types.ts";
import { pinAt } from "./pin.ts";

// A rectangle 100 wide and 300 high with the waist at 100 and the underbust at 200.
const PIECE = {
  edges: [
    { id: "P.hem", line: "hem", kind: "finished", d: "M0 0L100 0" },
    { id: "P.front", line: "front-princess", kind: "seam", d: "M100 0L100 300" },
    { id: "P.top", line: "top", kind: "finished", d: "M100 300L0 300" },
    { id: "P.side", line: "side", kind: "seam", d: "M0 300L0 0" },
  ],
  inside: [
    { id: "waist", kind: "level", d: "M0 100L100 100" },
    { id: "underbust", kind: "level", d: "M0 200L100 200" },
    { id: "bone", kind: "guide", d: "M10 0L10 300" },
  ],
} as unknown as Piece;
const SEAMS = ["front-princess", "side"];

test("a pin takes the nearest seam and level", () => {
  assert.deepEqual(pinAt(PIECE, [92, 103], SEAMS), { seam: "front-princess", level: "waist", above: 0 });
  assert.deepEqual(pinAt(PIECE, [8, 195], SEAMS), { seam: "side", level: "underbust", above: 0 });
});

test("away from a level it says how far above or below", () => {
  assert.deepEqual(pinAt(PIECE, [98, 130], SEAMS), { seam: "front-princess", level: "waist", above: 30 });
  assert.deepEqual(pinAt(PIECE, [2, 80], SEAMS), { seam: "side", level: "waist", above: -20 });
});

test("a seam that cannot be pinned is passed over, and a piece without one has no pin", () => {
  assert.equal(pinAt(PIECE, [98, 100], ["side"])?.seam, "side");
  assert.equal(pinAt(PIECE, [98, 100], ["back-princess"]), null);
  assert.equal(pinAt({ ...PIECE, inside: [] }, [98, 100], SEAMS), null);
});
