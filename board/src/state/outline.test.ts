import assert from "node:assert/strict";
import { test } from "node:test";
import { emptyTrace, type Trace } from "../wire/trace.ts";
import type { Point } from "../wire/types.ts";
import * as outline from "./outline.ts";

/** A square traced corner by corner; `turn` goes round it the other way. */
function square(trace: Trace, [x, y]: Point, side: number, turn = false): Trace {
  const corners: Point[] = [[x, y], [x + side, y], [x + side, y + side], [x, y + side]];
  if (turn) corners.reverse();
  for (const at of corners) trace = outline.withCorner(outline.withPoint(trace, at));
  return outline.closed(trace);
}

const empty = emptyTrace("own-01", "Mine");

test("an edge ends at a corner where the next begins, and the piece at its first point", () => {
  const { pieces } = square(empty, [10, 10], 50);
  assert.equal(pieces.length, 1);
  const { edges, closed, id } = pieces[0]!;
  assert.ok(closed);
  assert.equal(id, "CF");
  assert.equal(edges.length, 4);
  edges.forEach((edge, k) => assert.deepEqual(edge.points.at(-1), edges[(k + 1) % 4]!.points[0]));
});

test("edges run anticlockwise as they are looked at, whichever way they were traced", () => {
  for (const turn of [false, true]) {
    const ring = square(empty, [10, 10], 50, turn).pieces[0]!.edges.map((edge) => edge.points[0]!);
    // y runs down: the shoelace sum of an anticlockwise ring is negative.
    const twice = ring.reduce((sum, [ax, ay], k) => sum + ax * ring[(k + 1) % 4]![1] - ay * ring[(k + 1) % 4]![0], 0);
    assert.equal(twice, -2 * 50 * 50);
  }
});

test("a single edge is no piece, and a corner without an edge is none", () => {
  const one = outline.withPoint(outline.withPoint(empty, [0, 0]), [9, 9]);
  assert.equal(outline.closed(one), one);
  const begun = outline.withPoint(empty, [0, 0]);
  assert.equal(outline.withCorner(begun), begun);
});

test("what was put down last is taken back step by step, to an empty sheet", () => {
  let trace = outline.withCorner(outline.withPoint(outline.withPoint(empty, [0, 0]), [9, 9]));
  const counts = [];
  for (let k = 0; k < 4; k++) {
    trace = outline.withoutLast(trace);
    counts.push(trace.pieces.map((piece) => piece.edges.map((edge) => edge.points.length)));
  }
  assert.deepEqual(counts, [[[2]], [[1]], [], []]);
});

test("a moved corner stays one corner of both edges, and the other pieces stay", () => {
  const two = square(square(empty, [10, 10], 50), [100, 10], 50);
  const after = outline.moved(two, [10, 10], [12, 8]);
  assert.equal(after.pieces[0]!.edges.flatMap((edge) => edge.points).filter((at) => at[0] === 12 && at[1] === 8).length, 2);
  assert.deepEqual(after.pieces[1], two.pieces[1]);
});

test("a line belongs to the closed piece around its middle", () => {
  const two = square(square(empty, [10, 10], 50), [100, 10], 50);
  assert.equal(outline.pieceAround(two, [[95, 30], [155, 30]])?.id, "SF");
  assert.equal(outline.pieceAround(two, [[61, 30], [99, 30]]), null);
});

test("a piece that is renamed keeps its seams; one that is taken away loses them", () => {
  const seam = { line: "side", a: { piece: "CF", edge: 2 }, b: { piece: "SF", edge: 4 } };
  const two = { ...square(square(empty, [10, 10], 50), [100, 10], 50), seams: [seam] };
  assert.deepEqual(outline.changedPiece(two, "SF", { id: "Side" }).seams[0]!.b, { piece: "Side", edge: 4 });
  assert.deepEqual(outline.withoutPiece(two, "SF").seams, []);
});
