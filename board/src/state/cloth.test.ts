import assert from "node:assert/strict";
import { test } from "node:test";
import type { Design } from "../wire/types.ts";
import { clothOf, withCloth, withClothName } from "./cloth.ts";

const design: Design = {
  format: "panelwright-design/1",
  ref: "lantern-01",
  title: "Lantern",
  cloth_to_buy: { outer: { width_cm: 140, one_way: true }, lining: { width_cm: 110 } },
};

test("one cloth is changed and all else stays", () => {
  const changed = withCloth(design, "outer", { folded: false });
  assert.deepEqual(changed.cloth_to_buy, { outer: { width_cm: 140, one_way: true, folded: false }, lining: { width_cm: 110 } });
  assert.equal(changed.title, "Lantern");
  assert.deepEqual(clothOf(design, "outer"), { width_cm: 140, one_way: true });
});

test("what is undefined is said no more", () => {
  assert.deepEqual(clothOf(withCloth(design, "outer", { width_cm: undefined, one_way: undefined }), "outer"), {});
});

test("a design that says nothing of cloth gets what is said", () => {
  const { cloth_to_buy: _, ...plain } = design;
  assert.deepEqual(withCloth(plain as Design, "outer", { width_cm: 150 }).cloth_to_buy, { outer: { width_cm: 150 } });
  assert.deepEqual(clothOf(plain as Design, "outer"), {});
});

test("what is said about a cloth goes along with its name", () => {
  assert.deepEqual(withClothName(design, "outer", "silk").cloth_to_buy, { silk: { width_cm: 140, one_way: true }, lining: { width_cm: 110 } });
  assert.equal(withClothName(design, "facing", "cotton"), design);
  // Of a cloth that has its own words already, those stay.
  assert.deepEqual(withClothName(design, "outer", "lining").cloth_to_buy, { lining: { width_cm: 110 } });
});
