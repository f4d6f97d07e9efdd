import assert from "node:assert/strict";
import { test } from "node:test";
import { amountText, lengthText, parseLength, roundText } from "./length.ts";

test("centimetres are written to the tenth of a millimetre and no longer than needed", () => {
  assert.equal(lengthText(125, "cm"), "12.5 cm");
  assert.equal(lengthText(-35, "cm"), "−3.5 cm");
  assert.equal(lengthText(-0.001, "cm"), "0 cm");
});

test("inches are written in sixteenths, reduced", () => {
  assert.equal(lengthText(25.4 * 4.375, "in"), "4 3/8 in");
  assert.equal(lengthText(12.7, "in"), "1/2 in");
  assert.equal(lengthText(-25.4, "in"), "−1 in");
  assert.equal(amountText(25.39, "in"), "1");
});

test("what is written comes back", () => {
  for (const mm of [0, 3.5, -35, 127, 1234.5]) assert.equal(parseLength(amountText(mm, "cm"), "cm"), mm);
  for (const parts of [0, 1, 8, 17, -40]) {
    const mm = (parts * 25.4) / 16;
    const read = parseLength(amountText(mm, "in"), "in");
    assert.ok(read !== null && Math.abs(read - mm) < 1e-9, String(parts));
  }
});

test("a unit that is named wins, and what is no length is refused", () => {
  assert.equal(parseLength("5/8 in", "cm"), 15.875);
  assert.equal(parseLength("12 mm", "in"), 12);
  assert.equal(parseLength("3,5", "cm"), 35);
  for (const text of ["", "x", "1/3", "1e3", "NaN", "3 5", "--2"]) assert.equal(parseLength(text, "cm"), null, text);
});

test("a column of lengths keeps its tenths", () => {
  assert.deepEqual([890, 879.42, -4.7, -0.3, 0].map((mm) => roundText(mm, "cm")), ["89.0", "87.9", "−0.5", "0.0", "0.0"]);
  assert.equal(roundText(25.4 * 4.375, "in"), "4 3/8");
});
