import assert from "node:assert/strict";
import { test } from "node:test";
import { lineChoices, namesLine, namesPiece, pieceChoices } from "./offered.ts";

test("lines of steps stand behind those of the block, each once", () => {
  const block = [{ value: "side", label: "side" }];
  const offered = lineChoices(block, ["side", "hem/line", "hem/line"], ["yoke/line"]);
  assert.deepEqual(offered.map((choice) => choice.value), ["side", "hem/line", "yoke/line"]);
  assert.equal(offered[1]?.label, "hem, line");
});

test("only outer pieces are offered, by code", () => {
  const pieces = [
    { id: "SF", label: "Side front", layer: "outer" },
    { id: "SF/facing", label: "Side front", layer: "facing" },
  ];
  assert.deepEqual(pieceChoices(pieces), [{ value: "SF", label: "Side front (SF)" }]);
});

test("a field's name says what its text names", () => {
  assert.ok(namesLine("seam") && namesLine("dart") && !namesLine("piece"));
  assert.ok(namesPiece("piece") && namesPiece("pieces") && !namesPiece("label"));
});
