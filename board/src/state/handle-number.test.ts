import assert from "node:assert/strict";
import { test } from "node:test";
import type { Field, Value } from "../wire/types.ts";
import type { HandleField } from "./handle-field.ts";
import { numberText } from "./handle-number.ts";

const LEVELS = [{ id: "upper-bust", label: "upper bust" }];

function text(type: Field["type"], value: Value | undefined, unit: "cm" | "in" = "cm"): string {
  const found: HandleField = { field: { name: "f", label: "f", type, unit: "cm", optional: true }, value, with: () => ({ kind: "", uid: "" }) };
  return numberText(found, unit, LEVELS);
}

test("a length is read in the unit of the page", () => {
  assert.equal(text("length", 12.5), "12.5 cm");
  assert.equal(text("length", 2.54, "in"), "1 in");
  assert.equal(text("length", "1/2 in"), "1.27 cm");
});

test("a height is read from its level", () => {
  assert.equal(text("height", { level: "upper-bust", offset_cm: 1.5 }), "1.5 cm above upper bust");
  assert.equal(text("height", { level: "upper-bust", offset_cm: -3.5 }), "3.5 cm below upper bust");
  assert.equal(text("height", { level: "upper-bust" }), "on upper bust");
  assert.equal(text("height", { level: "upper-bust", share_to_next_level: 0.253 }), "25.3 % of the way up from upper bust");
});

test("a share is read in hundredths", () => assert.equal(text("number", 0.42), "42 %"));

test("where nothing is known nothing is read", () => {
  assert.equal(text("length", undefined), "");
  assert.equal(text("height", undefined), "");
  assert.equal(numberText(null, "cm", LEVELS), "");
});
