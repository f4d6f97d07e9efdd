import assert from "node:assert/strict";
import { test } from "node:test";
import type { Piece } from "../wire/types.ts";
import { strokesOf } from "./strokes.ts";

const piece = (id: string, layer: string, place: [number, number]): Piece => ({ id, layer, box: [0, 0, 100, 200], place }) as unknown as Piece;
const pieces = [piece("side", "outer", [0, 0]), piece("front", "outer", [160, 10]), piece("lining", "lining", [0, 0])];

test("a line over two pieces is two strokes, each in its piece's own mm", () => {
  const line = Array.from({ length: 13 }, (_, k): [number, number] => [20 + 20 * k, 150]);
  assert.deepEqual(strokesOf(line, pieces), [
    { piece: "side", points: [20, 40, 60, 80, 100].map((x) => [x, 150]) },
    { piece: "front", points: [0, 20, 40, 60, 80, 100].map((x) => [x, 140]) },
  ]);
});

test("what is drawn beside all pieces is nothing", () => assert.deepEqual(strokesOf([[0, 400], [100, 400]], pieces), []));
