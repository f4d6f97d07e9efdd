import assert from "node:assert/strict";
import { test } from "node:test";
import type { Edge, Piece } from "../wire/types.ts";
import { changes } from "./change.ts";
import { ends } from "./path.ts";

const edge = (id: string, d: string): Edge => ({ id, line: id, kind: "seam", d });

function piece(id: string, edges: Edge[], more: Partial<Piece> = {}): Piece {
  const rest = { label: id, layer: "outer", hand: "both", extent: "whole", cut: "", inside: [], marks: [], grain: null, notches: [], text: [] } as const;
  return { ...structuredClone(rest), id, edges, text_at: [0, 0], box: [0, 0, 0, 0], place: [0, 0], ...more } as Piece;
}

const square = piece("front", [edge("below", "M0 0L100 0"), edge("right", "M100 0L100 100"), edge("top", "M100 100L0 100"), edge("left", "M0 100L0 0")]);
// The same with its top 40 mm lower.
const lower = piece("front", [edge("below", "M0 0L100 0"), edge("right", "M100 0L100 60"), edge("top", "M100 60L0 60"), edge("left", "M0 60L0 0")]);

test("nothing changes where nothing was done", () => assert.deepEqual(changes([square], [square]), []));

test("a lower top is new; the old top and what stood above the new one went", () => {
  const [change, ...others] = changes([square], [lower]);
  assert.equal(others.length, 0);
  assert.equal(change!.fresh.length, 1);
  const [from, to] = ends(change!.fresh[0]!);
  assert.ok(Math.abs(from[0] - to[0]) > 95 && from[1] === 60 && to[1] === 60);
  assert.equal(change!.gone.length, 3);
  for (const d of change!.gone) for (const [, y] of ends(d)) assert.ok(y > 60, d);
});

test("a piece that comes is all new, one that goes went whole", () => {
  const tie = piece("tie", [edge("long", "M0 0L0 300"), edge("end", "M0 300L20 300")]);
  const [came] = changes([square], [square, tie]);
  assert.deepEqual([came!.piece, came!.fresh.length, came!.gone.length], ["tie", 2, 0]);
  const [went] = changes([square, tie], [square]);
  assert.deepEqual([went!.piece, went!.fresh.length, went!.gone.length], ["tie", 0, 2]);
});

test("lines inside and marks count too", () => {
  const boned = { ...square, inside: [{ id: "bone", kind: "stitch" as const, d: "M50 10L50 90" }], marks: [{ id: "b", kind: "button" as const, at: [10, 10] as [number, number] }] };
  const [change] = changes([square], [boned]);
  assert.deepEqual([change!.fresh.length, change!.marks, change!.gone.length], [1, [[10, 10]], 0]);
});

test("an edge that opens is new, though it lies where it lay", () => {
  const zipped = { ...square, edges: square.edges.map((edge) => (edge.id === "left" ? { ...edge, kind: "opening" as const } : edge)) };
  const [change] = changes([square], [zipped]);
  assert.deepEqual([change!.fresh, change!.gone], [["M0 100L0 0"], []]);
  assert.deepEqual(changes([zipped], [zipped]), []);
});
