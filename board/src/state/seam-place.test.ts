import assert from "node:assert/strict";
import { test } from "node:test";
import type { SeamPlace } from "../wire/types.ts";
import { allAtRest, begunPlaces } from "./seam-place.ts";

const places: SeamPlace[] = [
  { line: "side", level: "waist", distance: 184.6 },
  { line: "side", level: "bust", distance: 237.4 },
];
const waist = { line: "side", level: "waist", distance_cm: 18.5 };
const bust = { line: "side", level: "bust", distance_cm: 23.7 };

test("a new place begins where the seam lies now, to the millimetre", () => {
  assert.deepEqual(begunPlaces(undefined, [{ line: "side", level: "waist" }], places), [waist]);
  assert.deepEqual(begunPlaces([waist], [waist, { line: "side", level: "bust" }], places), [waist, bust]);
});

test("led to another level it goes along, unless its maker has moved it", () => {
  assert.deepEqual(begunPlaces([waist], [{ ...waist, level: "bust" }], places), [bust]);
  const moved = { ...waist, distance_cm: 17 };
  assert.deepEqual(begunPlaces([moved], [{ ...moved, level: "bust" }], places), [{ ...moved, level: "bust" }]);
});

test("where the block does not go, the distance is left to be written", () => {
  assert.deepEqual(begunPlaces([waist], [{ ...waist, level: "hip" }], places), [{ line: "side", level: "hip" }]);
  assert.deepEqual(begunPlaces(undefined, [{ line: "side", level: "hip" }], places), [{ line: "side", level: "hip" }]);
});

test("there is nothing to save until a place differs from where the seam lies", () => {
  assert.ok(allAtRest(undefined, [waist], places));
  assert.ok(allAtRest([waist], [waist, bust], places));
  assert.ok(!allAtRest(undefined, [{ ...waist, distance_cm: 18 }], places));
  assert.ok(!allAtRest([waist], [bust], places));
  assert.ok(!allAtRest([waist], [], places));
  assert.ok(!allAtRest([waist], undefined, places));
});
