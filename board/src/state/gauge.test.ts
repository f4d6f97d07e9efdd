import assert from "node:assert/strict";
import { test } from "node:test";
import type { Piece, Point } from "../wire/types.ts";
import { angle, between, caught, cornerAngle, sum, type Place } from "./gauge.ts";

const edge = (id: string, d: string) => ({ id, line: id, kind: "seam", d });
const box = [0, 0, 100, 100];
const rest = { layer: "outer", marks: [], notches: [{ from: [100, 50], to: [90, 50], count: 1 }] };
const front = { ...rest, id: "front", box, place: [1000, 0], edges: [edge("below", "M0 0L100 0"), edge("right", "M100 0L100 100"), edge("top", "M100 100L0 100")] } as unknown as Piece;
const back = { ...rest, id: "back", box, place: [0, 0], edges: [edge("side", "M0 0L30 40")] } as unknown as Piece;
const pieces = [front, back];
const onPaper = (place: Place): Point => {
  const [dx, dy] = pieces.find((piece) => piece.id === place.piece)?.place ?? [0, 0];
  return [place.at[0] + dx, place.at[1] + dy];
};

test("a corner or notch catches the point before its edge, an edge before the bare paper", () => {
  assert.deepEqual(caught([1098, 97], 6, pieces).at, [100, 100]);
  assert.deepEqual(caught([1103, 52], 6, pieces).at, [100, 50]);
  const onEdge = caught([1040, 4], 6, pieces);
  assert.deepEqual([onEdge.piece, onEdge.at, onEdge.edge], ["front", [40, 0], { id: "below", along: 40 }]);
  assert.deepEqual(caught([1050, 50], 6, pieces), { piece: "front", at: [50, 50] });
  assert.deepEqual(caught([500, 500], 6, pieces), { piece: null, at: [500, 500] });
});

test("two places on one edge are measured along it too", () => {
  const [a, b, c] = [caught([1010, 0], 6, pieces), caught([1090, 0], 6, pieces), caught([1100, 70], 6, pieces)];
  assert.deepEqual(between(a, b, onPaper, pieces), { straight: 80, along: 80 });
  assert.equal(between(a, c, onPaper, pieces).along, null);
  assert.ok(Math.abs(between(a, c, onPaper, pieces).straight - Math.hypot(90, 70)) < 1e-9);
});

test("angles are those of the corner", () => {
  assert.ok(Math.abs(angle([10, 0], [0, 0], [0, 3]) - 90) < 1e-9);
  assert.ok(Math.abs(angle([-1, 0], [0, 0], [5, 0]) - 180) < 1e-9);
  assert.ok(Math.abs(cornerAngle("M0 0L100 0", "M100 0L100 100")! - 90) < 1e-9);
  assert.ok(Math.abs(cornerAngle("M0 0C10 10 20 10 30 0", "M0 0L0 9")! - 45) < 1e-9);
  assert.equal(cornerAngle("M0 0L1 0", "M5 5L9 9"), null);
});

test("edges are added up, whatever pieces they are on; one that has gone counts nothing", () => {
  const spans = [{ piece: "front", edge: "below" }, { piece: "back", edge: "side" }, { piece: "back", edge: "gone" }];
  assert.equal(Math.round(sum(spans, pieces) * 1e6) / 1e6, 150);
});
