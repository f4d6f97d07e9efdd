import assert from "node:assert/strict";
import { test } from "node:test";
import type { Step, Value } from "../wire/types.ts";
import { withFirstDip } from "./first-dip.ts";

const edge = (kind: string, shape: string, centre: Value, side: Value): Step => ({ kind, uid: "s", shape, centre, side });
const chosen = (before: Step, shape: string): Step => withFirstDip(before, { ...before, shape });

test("what was level dips at the centre when a shape is chosen", () => {
  const level = edge("top-edge", "straight", { level: "upper-bust", offset_cm: -1 }, { level: "upper-bust", offset_cm: -1 });
  assert.deepEqual(chosen(level, "sweetheart"), { ...level, shape: "sweetheart", centre: { level: "upper-bust", offset_cm: -5 } });
  const hem = edge("hem", "straight", { level: "top-hip" }, { level: "top-hip" });
  assert.deepEqual(chosen(hem, "pointed").centre, { level: "top-hip", offset_cm: -5 });
});

test("a dip that nobody has moved goes along from shape to shape, and back to level", () => {
  const hem = edge("hem", "straight", { level: "top-hip" }, { level: "top-hip", offset_cm: 0 });
  const pointed = chosen(hem, "pointed");
  assert.deepEqual(chosen(pointed, "shaped").centre, { level: "top-hip", offset_cm: -3 });
  assert.deepEqual(chosen(chosen(pointed, "shaped"), "straight").centre, hem.side);
});

test("where the block ends the side is raised, and comes down again", () => {
  const hem = edge("hem", "straight", { level: "hip", offset_cm: 1 }, { level: "hip", offset_cm: 1 });
  const pointed = chosen(hem, "pointed");
  assert.deepEqual([pointed.centre, pointed.side], [hem.centre, { level: "hip", offset_cm: 6 }]);
  assert.deepEqual(chosen(pointed, "straight").side, hem.side);
});

test("heights that were set apart stay", () => {
  const deep = edge("top-edge", "straight", { level: "bust" }, { level: "upper-bust" });
  assert.deepEqual(chosen(deep, "sweetheart"), { ...deep, shape: "sweetheart" });
});

test("another choice than a shape, and another step, change nothing", () => {
  const level = edge("top-edge", "sweetheart", { level: "bust" }, { level: "bust" });
  assert.equal(withFirstDip(level, level), level);
  const bodice = edge("bodice-top", "round", { level: "bust" }, { level: "bust" });
  assert.deepEqual(chosen(bodice, "v"), { ...bodice, shape: "v" });
});

test("a height in proportion is lowered from its level", () => {
  const level = edge("top-edge", "straight", { level: "bust", share_to_next_level: 0.5 }, { level: "bust", share_to_next_level: 0.5 });
  assert.deepEqual(chosen(level, "sweetheart").centre, { level: "bust", offset_cm: -4 });
});
