import assert from "node:assert/strict";
import { test } from "node:test";
import type { Field, Outcome, StepKind } from "../wire/types.ts";
import { leadText } from "./lead.ts";

const field = (name: string, label: string): Field => ({ name, label, type: "length", optional: true });
const garment = [field("block.ease_cm.waist", "ease at the waist")];
const kinds: { [kind: string]: StepKind } = { "top-edge": { label: "Top edge", about: "", fields: [field("back", "height at centre back (else the side's level runs on)")] } };
const outcomes: Outcome[] = [{ step: "neckline", kind: "top-edge", label: "Top edge: scooped", state: "done", reason: null }];

test("a field of the whole garment is told by its label", () => {
  assert.equal(leadText({ field: "block.ease_cm.waist" }, garment, kinds, outcomes), "ease at the waist");
  assert.equal(leadText({ field: "block.unknown" }, garment, kinds, outcomes), null);
});

test("a field of a step is told with its step, and without what is else", () => {
  assert.equal(leadText({ step: "neckline", field: "back" }, garment, kinds, outcomes), "Top edge: scooped, height at centre back");
  assert.equal(leadText({ step: "neckline" }, garment, kinds, outcomes), "Top edge: scooped");
  assert.equal(leadText({ step: "gone" }, garment, kinds, outcomes), null);
});
