import assert from "node:assert/strict";
import { test } from "node:test";
import type { Edge } from "../wire/types.ts";
import { edgeName } from "./edge-name.ts";

const edge = (id: string, line: string, kind: Edge["kind"] = "finished"): Edge => ({ id, line, kind, d: "" });
const LINES = { "neckline/line": "Top edge", side: "Side seam", "s/end": "Strap, front end", "s/long": "Strap, long edges" };
const names = (label: string, edges: Edge[]) => edges.map((each) => edgeName({ label, edges }, each, LINES));

test("an edge is called by its line, which the server has named", () => {
  assert.deepEqual(names("Side front", [edge("a", "neckline/line"), edge("b", "side", "seam")]), ["top edge", "side seam"]);
});

test("a line of the piece's own does not say the piece twice", () => {
  assert.deepEqual(names("Strap 2", [edge("a", "s/end")]), ["front end"]);
  assert.deepEqual(names("Centre front", [edge("a", "s/end")]), ["strap front end"]);
});

test("edges of one line are numbered, each as one", () => {
  assert.deepEqual(names("Strap", [edge("a", "s/long"), edge("b", "s/end"), edge("c", "s/long")]), ["long edge 1", "front end", "long edge 2"]);
});

test("an edge whose line nobody has named is called by its kind", () => {
  assert.deepEqual(names("Side front", [edge("a", "unknown")]), ["finished edge"]);
});
