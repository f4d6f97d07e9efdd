import assert from "node:assert/strict";
import { test } from "node:test";
import { edgesOfBoth, renamed, sideOf } from "./seam-side.ts";

const [front, back, side] = [
  { piece: "F", edge: 2 },
  { piece: "CB", edge: 3 },
  { piece: "SB", edge: 3 },
];

test("a side of one edge is written alone, several as a list, and both are named anew", () => {
  const seam = { line: "shoulder", a: sideOf([front]), b: sideOf([back, side]) };
  assert.deepEqual(seam, { line: "shoulder", a: front, b: [back, side] });
  assert.deepEqual(edgesOfBoth(seam), [front, back, side]);
  const moved = renamed(seam, (ref) => (ref.piece === "SB" ? { ...ref, edge: 4 } : ref));
  assert.deepEqual(moved, { line: "shoulder", a: front, b: [back, { piece: "SB", edge: 4 }] });
});
