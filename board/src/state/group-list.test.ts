import assert from "node:assert/strict";
import { test } from "node:test";
import { MOST_ALIKE, typedNumber, withGarments, withKnown } from "./group-list.ts";

test("a design for several wearers is one line each, and one more of what is there", () => {
  const once = withGarments([], "drum-03", ["w-01", "w-02"], 1);
  assert.deepEqual(once.map(({ wearer, count }) => [wearer, count]), [["w-01", 1], ["w-02", 1]]);
  const again = withGarments([{ ...once[0]!, outer: "red silk" }, once[1]!], "drum-03", ["w-01", "size-88"], 3);
  assert.deepEqual(again.map(({ wearer, count, outer }) => [wearer, count, outer]), [["w-01", 4, "red silk"], ["w-02", 1, ""], ["size-88", 3, ""]]);
  assert.equal(withGarments(again, "drum-03", ["w-01"], 500)[0]!.count, MOST_ALIKE);
  assert.equal(once[0]!.count, 1, "what was there is another list");
});

test("prices are typed with a point or a comma; less than nothing and words are none", () => {
  assert.equal(typedNumber(" 6,20 ", 100), 6.2);
  assert.equal(typedNumber("0", 100), 0);
  assert.equal(typedNumber(" ", 100), undefined);
  for (const text of ["-1", "dear", "101", "1e999"]) assert.equal(typedNumber(text, 100), null, text);
});

test("of a cloth that is changed all is told that was known", () => {
  const told = { width_cm: 150, sold_by_cm: 10, one_way: false };
  const priced = withKnown({}, "outer", told, { price_per_metre: 28 });
  assert.deepEqual(priced, { outer: { ...told, price_per_metre: 28 } });
  assert.deepEqual(withKnown(priced, "outer", told, { price_per_metre: undefined, width_cm: 114 }), { outer: { ...told, width_cm: 114 } });
});
