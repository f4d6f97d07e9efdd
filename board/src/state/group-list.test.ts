import assert from "node:assert/strict";
import { test } from "node:test";
import { askedIn, calledIn, freeRef, MOST_ALIKE, newestOf, typedNumber, withGarments, withKnown } from "./group-list.ts";

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

test("a kept group asks for what it says, and for the usual where it says nothing", () => {
  const bare = askedIn({ format: "panelwright-workroom-group/1", ref: "group-1", title: "Festival", garments: [{ design: "drum-03", wearer: "w-01" }], spare: { notions_percent: 10 } });
  assert.deepEqual(bare, { title: "Festival", garments: [{ design: "drum-03", wearer: "w-01", count: 1, outer: "" }], cloths: {}, notion_prices: {}, money: "", spare: { cloth_percent: 0, notions_percent: 10 }, longest_lay_cm: 400, seconds: 0 });
  const whole = { ...bare, garments: [{ design: "drum-03", wearer: "w-01", count: 4, outer: "red silk" }], money: "EUR", longest_lay_cm: 250 };
  assert.deepEqual(askedIn({ format: "panelwright-workroom-group/1", ref: "group-1", ...whole }), whole);
});

test("the group that was changed last is shown, another one gets a free reference, equal titles are told apart", () => {
  const card = (ref: string, version: number, title = "Festival") => ({ ref, title, version });
  const groups = [card("group-1", 7), card("group-2", 9), card("group-4", 8, "Class")];
  assert.equal(newestOf(groups), "group-2");
  assert.equal(newestOf([]), undefined);
  assert.equal(freeRef(groups), "group-3");
  assert.equal(freeRef([]), "group-1");
  assert.deepEqual(groups.map((own) => calledIn(groups, own)), ["Festival (group-1)", "Festival (group-2)", "Class"]);
});
