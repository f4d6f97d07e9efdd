import assert from "node:assert/strict";
import { test } from "node:test";
import type { Field, Step } from "../wire/types.ts";
import { begunClosure, movedClosure } from "./usual-closure.ts";

const fields: Field[] = [
  { name: "place", label: "where", type: "choice", optional: false },
  { name: "type", label: "how", type: "choice", optional: false },
  { name: "style", label: "set in", type: "choice", optional: true, when: { type: ["zip"] } },
];
const blank: Step = { kind: "closure", uid: "c", place: "centre-front", type: "fold" };
const at = (place: string, type: string): Step => ({ ...blank, place, type });

test("the first closure is a zip at centre back, the next lies where nothing opens yet", () => {
  assert.deepEqual(begunClosure(blank, []), at("centre-back", "zip"));
  assert.deepEqual(begunClosure(blank, [at("centre-back", "lacing")]), at("centre-front", "buttons"));
  assert.deepEqual(begunClosure(blank, [at("centre-back", "zip"), at("centre-front", "fold")]), at("side", "zip"));
});

test("moved elsewhere it is shut as is usual there, without what belongs to the other way", () => {
  const invisible = { ...at("centre-back", "zip"), style: "invisible" };
  assert.deepEqual(movedClosure(fields, invisible, { ...invisible, place: "centre-front" }), at("centre-front", "buttons"));
});

test("what its maker has chosen stays", () => {
  const laced = at("centre-back", "lacing");
  assert.deepEqual(movedClosure(fields, laced, { ...laced, place: "centre-front" }), at("centre-front", "lacing"));
  const zip = at("centre-back", "zip");
  assert.deepEqual(movedClosure(fields, zip, { ...zip, type: "hooks" }), at("centre-back", "hooks"));
});
