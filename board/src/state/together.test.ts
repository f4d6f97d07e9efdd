import assert from "node:assert/strict";
import { test } from "node:test";
import type { Piece } from "../wire/types.ts";
import { together } from "./together.ts";

type Box = [number, number, number, number];
const piece = (id: string, box: Box, waist: boolean): Piece => ({ id, box, inside: waist ? [{ id: "waist", kind: "level", d: "" }] : [] }) as unknown as Piece;

test("no piece lies on another at any stage, and waists are level", () => {
  const stages = [
    [piece("front", [0, -200, 150, 300], true), piece("back", [-400, -200, -250, 400], true)],
    [piece("front", [0, -100, 180, 200], true), piece("back", [-400, -250, -250, 200], true), piece("tie", [0, 0, 30, 600], false), piece("band", [0, 0, 500, 40], false)],
  ];
  const places = together(stages);
  assert.equal(places.get("front")![1], 0);
  assert.equal(places.get("back")![1], 0);
  const laid = stages.flat().map(({ id, box: [left, bottom, right, top] }) => {
    const [x, y] = places.get(id)!;
    return { id, box: [left + x, bottom + y, right + x, top + y] };
  });
  for (const a of laid) {
    for (const b of laid) {
      if (a.id === b.id) continue;
      const apart = a.box[2]! < b.box[0]! || b.box[2]! < a.box[0]! || a.box[3]! < b.box[1]! || b.box[3]! < a.box[1]!;
      assert.ok(apart, `${a.id} lies on ${b.id}`);
    }
  }
});
