import assert from "node:assert/strict";
import { test } from "node:test";
import type { Worn } from "../wire/body.ts";
import type { Piece } from "../wire/types.ts";
import { girthsOf } from "./girths.ts";

/** A square prism of 100, from 50 below the waist to 200 above it. */
const ring = [[0, 0], [100, 0], [100, 100], [0, 100]] as const;
const torso = {
  points: [-50, 200].flatMap((z) => ring.flatMap(([x, y]) => [x, y, z])),
  triangles: ring.flatMap((_, k) => [k, (k + 1) % 4, 4 + ((k + 1) % 4), k, 4 + ((k + 1) % 4), 4 + k]),
};
const waist = { id: "waist", label: "waist", height: 0 };
const bust = { id: "bust", label: "bust", height: 150 };
const worn: Worn = {
  torso, panels: [], hanging: [], crossed: [bust],
  lines: [{ line: "waist", kind: "level", piece: "CF", hand: "right", points: [0, 0, 0, 100, 0, 0] }],
};
const pieces = new Map([["CF", { inside: [{ id: "waist", kind: "level", d: "M0 0L103 0" }] } as unknown as Piece]]);

test("a level that an edge crosses keeps its row, with the body's girth and none of the cloth", () => {
  const rows = girthsOf(worn, [waist], pieces);
  assert.deepEqual(rows.map(({ id, cloth, round }) => [id, cloth, round]), [["bust", null, false], ["waist", 103, false]]);
  assert.ok(rows.every(({ body }) => Math.abs(body - 400) < 1e-6));
});

test("a lacing gap is a part of the girth, and what laps is none", () => {
  const half = { line: "waist", kind: "level", piece: "CF" } as const;
  // Both halves of the way round the square prism, but for 50 in the middle of one side.
  const right = { ...half, hand: "right", points: [75, 100, 0, 100, 100, 0, 100, 0, 0, 50, 0, 0] } as const;
  const left = { ...half, hand: "left", points: [25, 100, 0, 0, 100, 0, 0, 0, 0, 50, 0, 0] } as const;
  const laced: Worn = { ...worn, crossed: [], lines: [right, left].map((line) => ({ ...line, points: [...line.points] })) };
  const cloth = new Map([["CF", { inside: [{ id: "waist", kind: "level", d: "M0 0L175 0" }] } as unknown as Piece]]);
  const [open] = girthsOf(laced, [waist], cloth);
  const [closed] = girthsOf(laced, [{ ...waist, gap: 50 }], cloth);
  assert.deepEqual([open?.round, open?.closed], [false, 350]);
  assert.deepEqual([closed?.round, closed?.cloth, closed?.closed], [true, 350, 400]);
  assert.equal(girthsOf(laced, [{ ...waist, overlap: 40 }], cloth)[0]?.closed, 310);
});

test("a level that the garment does not reach has no row", () => {
  assert.deepEqual(girthsOf({ ...worn, crossed: [] }, [waist, bust], pieces).map(({ id }) => id), ["waist"]);
});
