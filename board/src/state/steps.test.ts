import assert from "node:assert/strict";
import { test } from "node:test";
import type { Step, StepKind } from "../wire/types.ts";
import { moved, newStep, placed, renamed } from "./steps.ts";

const kinds = ["top-edge", "hem", "strap", "closure", "bones"];
const steps: Step[] = ["top-edge", "hem", "closure"].map((kind) => ({ kind, uid: kind }));
const uids = (list: Step[]) => list.map((step) => step.uid).join(" ");

test("a new step stands where its kind belongs", () => {
  assert.equal(uids(placed(steps, { kind: "bones", uid: "b" }, kinds)), "top-edge hem closure b");
  assert.equal(uids(placed(steps, { kind: "strap", uid: "s" }, kinds)), "top-edge hem s closure");
  assert.equal(uids(placed(steps, { kind: "hem", uid: "h" }, kinds)), "top-edge hem h closure");
  assert.equal(uids(placed([], { kind: "hem", uid: "h" }, kinds)), "h");
});

test("a step is moved and none is lost", () => {
  assert.equal(uids(moved(steps, 0, 1)), "hem top-edge closure");
  assert.equal(uids(moved(steps, 2, 0)), "closure top-edge hem");
  assert.equal(uids(moved(steps, 5, 0)), uids(steps));
});

test("a new step has its required fields, as usual, and a name of its own", () => {
  const form: StepKind = {
    label: "Hem", about: "", fields: [
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
