import assert from "node:assert/strict";
import { test } from "node:test";
import type { Piece, Point } from "../wire/types.ts";
import { codePlace } from "./code-place.ts";

const SCALE = 0.5; // px per mm
const SIZE = 13; // px
const box = (width: number, height: number) => `M0 0L${width} 0L${width} ${height}L0 ${height}Z`;

function panel(width: number, more: Partial<Piece> = {}): Piece {
  const cut = box(width, 300);
  const piece = { id: "CB", label: "Centre back", code: "CB", cut, box: [0, 0, width, 300], edges: [], inside: [], marks: [], notches: [], grain: null, text_at: [width / 2, 150] };
  return { ...piece, ...more } as unknown as Piece;
}

const eyelets = (x: number): Piece["marks"] => Array.from({ length: 9 }, (_, k) => ({ id: String(k), kind: "eyelet", at: [x, 20 + 32 * k] as Point }));

test("a code stands where the text does, where nothing is in its way", () => {
  const at = codePlace(panel(180), SCALE, SIZE)!;
  assert.ok(Math.hypot(at[0] - 90, at[1] - 150) < 15);
});

test("it gives way to eyelets, lines and grain", () => {
  const piece = panel(180, { marks: eyelets(90), inside: [{ id: "waist", kind: "level", d: "M0 160L180 160" }], grain: [[60, 20], [60, 280]] });
  const at = codePlace(piece, SCALE, SIZE)!;
  // Two capitals are about 18 px wide and 13 high: 18 and 13 mm to each side of the middle.
  assert.ok(Math.abs(at[0] - 90) > 18 && Math.abs(at[0] - 60) > 18 && Math.abs(at[1] - 160) > 13);
  assert.ok(at[0] > 18 && at[0] < 180 - 18);
});

test("where a piece is too narrow, or full, it has no place in it", () => {
  assert.equal(codePlace(panel(30), SCALE, SIZE), null);
  assert.equal(codePlace(panel(70, { marks: eyelets(35) }), SCALE, SIZE), null);
  assert.notEqual(codePlace(panel(70), SCALE, SIZE), null);
});

test("it stays inside a piece that fills a corner of its box", () => {
  const at = codePlace(panel(180, { cut: "M0 0L180 0L180 300Z", text_at: [20, 280] }), SCALE, SIZE)!;
  assert.ok(at[1] < (at[0] * 300) / 180);
});
