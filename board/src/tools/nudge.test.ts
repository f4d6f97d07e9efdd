import assert from "node:assert/strict";
import { test } from "node:test";
import type { Handle } from "../wire/types.ts";
import { Nudge } from "./nudge.ts";

const handle: Handle = {
  step: "hem", name: "side", label: "height at the side", piece: "SF", at: [5, 50], way: [[5, 100], [5, 0]], anywhere: false,
};

function keys(...pressed: string[]): string[] {
  const done: string[] = [];
  const nudge = new Nudge({
    drag: (_handle, to) => done.push(to.join()),
    drop: () => done.push("drop"),
    leave: () => done.push("leave"),
  });
  for (const key of pressed) nudge.key(handle, key.replace("Shift+", ""), key.startsWith("Shift+"));
  nudge.settle();
  return done;
}

test("arrows move by 1 mm, with Shift by 1 cm, from where the last one left it", () => {
  assert.deepEqual(keys("ArrowUp", "ArrowUp", "Shift+ArrowDown"), ["5,51", "5,52", "5,42", "drop"]);
});

test("across its way, right is up", () => {
  assert.deepEqual(keys("ArrowRight", "ArrowLeft"), ["5,51", "5,50", "drop"]);
});

test("Escape puts back and Enter keeps, once", () => {
  assert.deepEqual(keys("ArrowUp", "Escape"), ["5,51", "leave"]);
  assert.deepEqual(keys("ArrowUp", "Enter", "Enter"), ["5,51", "drop"]);
  assert.deepEqual(keys("Escape", "x"), []);
});
