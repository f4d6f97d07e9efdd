import assert from "node:assert/strict";
import { test } from "node:test";
import { emptyTrace } from "../wire/trace.ts";
import { designOn } from "./on-paper.ts";

test("a design on a traced block has no steps and names the block", () => {
  const trace = { ...emptyTrace("own-02", "Mine"), allowance_mm: 15 };
  assert.deepEqual(designOn(trace, true, "d-1", "Skirt top"), {
    format: "panelwright-design/1",
    ref: "d-1",
    title: "Skirt top",
    steps: [],
    traced: { ref: "own-02", true: true },
    finish: { allowance_cm: 1.5 },
  });
  assert.equal("finish" in designOn(emptyTrace("own-02", "Mine"), false, "d-1", "A"), false);
});
