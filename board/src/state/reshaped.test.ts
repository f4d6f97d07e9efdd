import assert from "node:assert/strict";
import { test } from "node:test";
import { emptyTrace, type Trace } from "../wire/trace.ts";
import type { Point } from "../wire/types.ts";
import * as outline from "./outline.ts";
import { metOutline, roleOf, withCornerAt, withoutCornerAt, withoutPointAt, withPointIn } from "./reshaped.ts";

const CORNERS: Point[] = [[0, 0], [0, 100], [100, 100], [100, 0]];

/** A closed square with two seams confirmed: on its edges 1 and 3. */
function square(): Trace {
  let trace = emptyTrace("own-01", "Mine");
  for (const at of CORNERS) trace = outline.withCorner(outline.withPoint(trace, at));
  trace = outline.closed(trace);
  const seam = (line: string, edge: number) => ({ line, a: { piece: "CF", edge }, b: { piece: "SF", edge: 1 } });
  return { ...trace, seams: [seam("one", 1), seam("three", 3)] };
}

/** The outline runs through every edge to the start of the next. */
function whole(trace: Trace): boolean {
  const { edges } = trace.pieces[0]!;
  return edges.every((one, k) => one.points.at(-1)!.join() === edges[(k + 1) % edges.length]!.points[0]!.join());
}

test("a place near an edge meets it there, and one that is farther off meets none", () => {
  const met = metOutline(square(), [3, 40], 5)!;
  assert.deepEqual(met.at, [0, 40]);
  assert.equal(metOutline(square(), [20, 40], 5), null);
});

test("a point put into an edge becomes a corner, and a point again, and goes", () => {
  const trace = square();
  const met = metOutline(trace, [3, 40], 5)!;
  const pointed = withPointIn(trace, met, [1, 40]);
  assert.equal(roleOf(pointed, [1, 40]), "point");
  const cut = withCornerAt(pointed, [1, 40]);
  assert.equal(roleOf(cut, [1, 40]), "corner");
  assert.equal(cut.pieces[0]!.edges.length, 5);
  assert.ok(whole(cut));
  const again = withoutCornerAt(cut, [1, 40]);
  assert.deepEqual(again.pieces, pointed.pieces);
  assert.deepEqual(withoutPointAt(again, [1, 40]).pieces, trace.pieces);
});

test("seams go on naming their edges; that of the edge which was cut is to be confirmed anew", () => {
  const trace = square();
  const met = metOutline(trace, [3, 40], 5)!;
  assert.equal(met.edge, 0);
  const cut = withCornerAt(withPointIn(trace, met, [1, 40]), [1, 40]);
  assert.deepEqual(cut.seams.map((seam) => [seam.line, seam.a]), [["three", { piece: "CF", edge: 4 }]]);
});

test("the corner where the outline begins can go too, and a piece keeps two edges", () => {
  let trace = square();
  const first = trace.pieces[0]!.edges[0]!.points[0]!;
  trace = withoutCornerAt(trace, first);
  assert.equal(trace.pieces[0]!.edges.length, 3);
  assert.ok(whole(trace));
  for (const at of CORNERS) trace = withoutCornerAt(trace, at);
  assert.equal(trace.pieces[0]!.edges.length, 2);
  assert.ok(whole(trace));
});
