import assert from "node:assert/strict";
import { test } from "node:test";
import type { Handle, Step, StepKind } from "../wire/types.ts";
import { fieldOf, leftOpen, onLevel } from "./handle-field.ts";

const handle = (name: string): Handle => ({ step: "s", name, label: `the ${name}`, piece: "CF", at: [0, 0], way: [[0, 0], [0, 1]], anywhere: false });
const edge: Step = { kind: "top-edge", uid: "s", centre: { level: "bust", offset_cm: 2 }, points: [{ level: "waist", line: "side" }, { level: "bust", offset_cm: -1, line: "side" }] };
const edgeForm: StepKind = { label: "", about: "", fields: [{ name: "centre", label: "", type: "height", optional: false }] };
const zip: Step = { kind: "closure", uid: "s", opening_cm: 20 };
const zipForm: StepKind = { label: "", about: "", fields: ["down_to", "opening_cm"].map((name) => ({ name, label: "", type: "length", optional: true })) };

test("a handle at centre front changes that height", () => {
  const found = fieldOf(handle("centre"), edge, edgeForm)!;
  assert.deepEqual(found.value, { level: "bust", offset_cm: 2 });
  assert.deepEqual(found.with({ level: "bust" }), { ...edge, centre: { level: "bust" } });
  assert.equal(found.field.label, "the centre");
});

test("a free point keeps its line, and the others stay", () => {
  const found = fieldOf(handle("point 2"), edge, edgeForm)!;
  assert.deepEqual(found.with({ level: "waist", line: "side" }).points, [{ level: "waist", line: "side" }, { level: "waist", line: "side" }]);
  assert.equal(fieldOf(handle("point 3"), edge, edgeForm), null);
});

test("of two ways to say it, the one that the step uses is changed", () => {
  assert.equal(fieldOf(handle("end"), zip, zipForm)!.field.name, "opening_cm");
  assert.equal(fieldOf(handle("end"), { kind: "closure", uid: "s" }, zipForm), null);
});

test("what is not known can only be moved", () => {
  assert.equal(fieldOf(handle("elsewhere"), edge, edgeForm), null);
  assert.equal(fieldOf(handle("centre"), undefined, edgeForm), null);
});

test("what a step does not say is left open, and only what a handle sets", () => {
  assert.ok(leftOpen(handle("back"), edge));
  assert.ok(!leftOpen(handle("centre"), edge));
  assert.ok(leftOpen(handle("end"), { kind: "closure", uid: "s" }));
  assert.ok(!leftOpen(handle("end"), zip));
  assert.ok(!leftOpen(handle("elsewhere"), edge));
  assert.ok(!leftOpen(handle("centre"), undefined));
});

test("a height is on its level when nothing is added", () => {
  assert.equal(onLevel({ level: "bust" }), "bust");
  assert.equal(onLevel({ level: "bust", offset_cm: 0 }), "bust");
  assert.equal(onLevel({ level: "bust", offset_cm: 0.1 }), null);
  assert.equal(onLevel({ level: "bust", share_to_next_level: 0.5 }), null);
  assert.equal(onLevel(12), null);
});
