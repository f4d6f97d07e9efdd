import assert from "node:assert/strict";
import { test } from "node:test";
import type { Field, Step, StepKind } from "../wire/types.ts";
import { acting, inOrder, moved, newStep, placed, renamed, said, patched } from "./steps.ts";

const steps: Step[] = ["top-edge", "hem", "closure"].map((kind) => ({ kind, uid: kind }));
const uids = (list: Step[]) => list.map((step) => step.uid).join(" ");

test("a new step stands where its kind belongs", () => {
  assert.equal(uids(placed(steps, { kind: "bones", uid: "b" })), "top-edge hem closure b");
  assert.equal(uids(placed(steps, { kind: "strap", uid: "s" })), "top-edge hem s closure");
  assert.equal(uids(placed(steps, { kind: "hem", uid: "h" })), "top-edge hem h closure");
  assert.equal(uids(placed([], { kind: "hem", uid: "h" })), "h");
});

test("kinds stand in the order of making, and one that is not known comes last", () => {
  assert.deepEqual(inOrder(["bones", "new", "hem", "top-edge"]), ["top-edge", "hem", "bones", "new"]);
});

const fields: Field[] = [
  { name: "type", label: "type", type: "choice", optional: true, default: "zip" },
  { name: "zip_cm", label: "zip", type: "length", optional: true, when: { type: ["zip"] } },
  { name: "gap_cm", label: "gap", type: "length", optional: true, when: { type: ["lacing"] } },
];

test("a field acts while the others say so, left out ones as usual", () => {
  assert.deepEqual(acting(fields, {}).map((field) => field.name), ["type", "zip_cm"]);
  assert.deepEqual(acting(fields, { type: "lacing" }).map((field) => field.name), ["type", "gap_cm"]);
});

test("what no longer acts is not said any more, and what is no field stays", () => {
  const step: Step = { kind: "closure", uid: "back", zip_cm: 30 };
  assert.deepEqual(said(fields, step, "type", "lacing"), { kind: "closure", uid: "back", type: "lacing" });
  assert.deepEqual(said(fields, step, "zip_cm", undefined), { kind: "closure", uid: "back" });
});

test("a step is moved and none is lost", () => {
  assert.equal(uids(moved(steps, 0, 1)), "hem top-edge closure");
  assert.equal(uids(moved(steps, 2, 0)), "closure top-edge hem");
  assert.equal(uids(moved(steps, 5, 0)), uids(steps));
});

test("a new step has its required fields, as usual, and a name of its own", () => {
  const form: StepKind = {
    label: "Hem", about: "", fields: [
      { name: "uid", label: "name", type: "text", optional: false },
      { name: "shape", label: "Shape", type: "choice", choices: [{ value: "straight", label: "straight" }], optional: false },
      { name: "centre", label: "Centre", type: "height", optional: false },
      { name: "back", label: "Back", type: "height", optional: true },
      { name: "width_cm", label: "Width", type: "length", unit: "cm", optional: false, default: 3, least: 1 },
    ],
  };
  assert.deepEqual(newStep("hem", form, ["hem"], "top-hip"), {
    kind: "hem", uid: "hem-2", shape: "straight", centre: { level: "top-hip" }, width_cm: 3,
  });
});

test("a name is changed wherever the step's lines are spoken of, and nowhere else", () => {
  const list: Step[] = [
    { kind: "hem", uid: "hem" },
    { kind: "tie", uid: "tie", from: "hem", attach: [{ line: "hem/line", at: 3 }] },
  ];
  assert.deepEqual(renamed(list, "hem", "lower"), [
    { kind: "hem", uid: "lower" },
    { kind: "tie", uid: "tie", from: "hem", attach: [{ line: "lower/line", at: 3 }] },
  ]);
});

test("a level that a step is called by stays a level", () => {
  const list: Step[] = [
    { kind: "tie", uid: "waist" },
    { kind: "hem", uid: "hem", centre: { level: "waist", offset_cm: -2 }, lines: ["waist/line", "waist"] },
  ];
  assert.deepEqual(renamed(list, "waist", "sash"), [
    { kind: "tie", uid: "sash" },
    { kind: "hem", uid: "hem", centre: { level: "waist", offset_cm: -2 }, lines: ["sash/line", "waist"] },
  ]);
});

test("what was written is put on the step as it is now, and nothing else of the state that it was written on", () => {
  const before: Step = { kind: "closure", uid: "back", type: "zip", zip_cm: 30, note: "old" };
  const now: Step = { kind: "closure", uid: "back", type: "zip", zip_cm: 25 };
  assert.deepEqual(patched(now, before, { ...before, style: "lapped" }), { ...now, style: "lapped" });
  const { zip_cm: _gone, ...without } = before;
  assert.deepEqual(patched(now, before, without as Step), { kind: "closure", uid: "back", type: "zip" });
  assert.deepEqual(patched(now, before, before), now);
});
