import assert from "node:assert/strict";
import { test } from "node:test";
import type { Design, Field } from "../wire/types.ts";
import { asLike, isOwn, isUnfinished, outside, plainly, saidOf, usualText, withField } from "./garment.ts";

const bust: Field = { name: "block.ease_cm.bust", label: "ease at the bust", type: "length", unit: "cm", least: -15, most: 30, optional: true, default: 1 };
const facing: Field = {
  name: "finish.facing", label: "facing", type: "choice", optional: true, default: "none",
  choices: [{ value: "none", label: "none" }, { value: "full", label: "the whole shape" }, { value: "edge", label: "a band" }],
};
const hem: Field = { name: "finish.hem_facing_width_cm", label: "hem facing", type: "length", unit: "cm", least: 0, most: 20, optional: true, default: 0, when: { "finish.facing": ["edge"] } };
const interfacing: Field = {
  name: "finish.interfacing", label: "interfacing", type: "choice", optional: true, default: "none",
  choices: [{ value: "none", label: "none", also: [false] }, { value: "full", label: "every piece", also: [true] }],
};
const turn: Field = { name: "finish.turn_of_cloth_mm", label: "turn of cloth", type: "length", unit: "mm", least: 0, most: 5, optional: true, default: 0 };
const widths: Field = { name: "finish.allowance_by_line_cm", label: "by line", type: "widths", unit: "cm", least: 0, most: 10, optional: true };
const seams: Field = {
  name: "block.seams", label: "seams", type: "list", optional: true,
  of: [{ name: "line", label: "seam", type: "text", optional: false }, { name: "distance_cm", label: "distance", type: "length", unit: "cm", optional: false }],
};
const fields = [bust, facing, hem, interfacing, turn, widths, seams];
const plain: Design = { format: "panelwright-design/1", ref: "lantern-09", title: "Lantern", steps: [{ kind: "hem", uid: "hem" }] };

test("a value is put where the design has it, and all else stays the same", () => {
  const changed = withField(plain, fields, bust.name, 3);
  assert.deepEqual(changed, { ...plain, block: { ease_cm: { bust: 3 } } });
  assert.equal(changed.steps, plain.steps);
  const both = withField({ ...plain, block: { panels: 5, ease_cm: { waist: 2 } } }, fields, bust.name, -1);
  assert.deepEqual(both.block, { panels: 5, ease_cm: { waist: 2, bust: -1 } });
});

test("back to usual leaves nothing behind, and takes nothing of others along", () => {
  assert.deepEqual(withField(withField(plain, fields, bust.name, 3), fields, bust.name, undefined), plain);
  const other: Design = { ...plain, block: { panels: 5, ease_cm: { bust: 3 } } };
  assert.deepEqual(withField(other, fields, bust.name, undefined).block, { panels: 5 });
  assert.deepEqual(withField(plain, fields, bust.name, undefined), plain);
});

test("what another field no longer lets act is not said any more", () => {
  const faced: Design = { ...plain, finish: { facing: "edge", hem_facing_width_cm: 4, allowance_cm: 1 } };
  assert.deepEqual(withField(faced, fields, facing.name, "full").finish, { facing: "full", allowance_cm: 1 });
  assert.deepEqual(withField(faced, fields, bust.name, 2).finish, faced.finish);
});

test("a choice that is said in another way is told as chosen, and stays as it was written", () => {
  const stiff: Design = { ...plain, finish: { interfacing: true } };
  assert.deepEqual(saidOf(stiff, fields), { "finish.interfacing": "full" });
  assert.deepEqual(withField(stiff, fields, facing.name, "full").finish, { interfacing: true, facing: "full" });
  assert.deepEqual(withField(stiff, fields, interfacing.name, "none").finish, { interfacing: "none" });
});

test("a value is the maker's own where it is not the usual one in other words", () => {
  assert.equal(isOwn(bust, undefined), false);
  assert.equal(isOwn(bust, 1), false);
  assert.equal(isOwn(bust, "10 mm"), false);
  assert.equal(isOwn(bust, 1.5), true);
  assert.equal(isOwn(facing, "none"), false);
  assert.equal(isOwn(facing, "edge"), true);
  assert.equal(isOwn(widths, {}), false);
  assert.equal(isOwn(widths, { hem: 3 }), true);
  assert.equal(isOwn(seams, []), false);
});

test("what is usual is told in the reader's unit and words", () => {
  assert.equal(usualText(bust, "cm", "yes", "no"), "1 cm");
  assert.equal(usualText(bust, "in", "yes", "no"), "3/8 in");
  assert.equal(usualText(facing, "cm", "yes", "no"), "none");
  assert.equal(usualText(widths, "cm", "yes", "no"), "");
  assert.equal(usualText({ ...facing, type: "switch", default: false }, "cm", "yes", "no"), "no");
});

test("limits hold, and are told in the reader's unit", () => {
  assert.equal(outside(bust, 30, "cm"), null);
  assert.deepEqual(outside(bust, 30.1, "cm"), ["−15 cm", "30 cm"]);
  assert.deepEqual(outside(turn, 5.1, "cm"), ["0 cm", "0.5 cm"]);
  assert.deepEqual(outside(widths, { hem: 3, side: 11 }, "in"), ["0 in", "3 15/16 in"]);
  assert.equal(outside(widths, { hem: 3 }, "cm"), null);
  assert.equal(outside(facing, "edge", "cm"), null);
  assert.deepEqual(outside({ ...bust, type: "whole", unit: undefined, least: 3, most: 6 } as unknown as Field, 7, "cm"), ["3", "6"]);
});

test("an entry of which something is not yet written waits", () => {
  assert.equal(isUnfinished(seams, [{ line: "side" }]), true);
  assert.equal(isUnfinished(seams, [{ line: "side", distance_cm: 20 }]), false);
  assert.equal(isUnfinished(bust, 3), false);
});

test("a refusal is told in the words of the page", () => {
  assert.equal(plainly(fields, "block: ease at the bust is 40 cm; give less"), "Ease at the bust is 40 cm; give less");
  assert.equal(plainly(fields, "The workroom does not answer."), "The workroom does not answer.");
  assert.equal(
    plainly(fields, 'finish: it needs a facing; choose the facing "edge", or the interfacing "full"'),
    "It needs a facing; choose the facing “a band”, or the interfacing “every piece”",
  );
  assert.equal(plainly(fields, 'finish: write "facing": "full" too'), "Write “facing”: “the whole shape” too");
  assert.equal(plainly(fields, "finish.facing must be a text"), "Facing must be a text");
  assert.equal(plainly(fields, 'block: there is no seam "waist"'), "There is no seam “waist”");
});

test("what is usual for one field can be what another says", () => {
  const all: Field = { name: "finish.allowance_cm", label: "seam allowance", type: "length", unit: "cm", optional: true, default: 1 };
  const openings: Field = { name: "finish.allowance_by_kind_cm.opening", label: "openings", type: "length", unit: "cm", optional: true, like: all.name };
  const usual = (values: { [name: string]: number }) => usualText(asLike(openings, [all, openings], values), "cm", "yes", "no");
  assert.equal(usual({}), "1 cm");
  assert.equal(usual({ [all.name]: 1.5 }), "1.5 cm");
  assert.equal(asLike(all, [all, openings], {}), all);
});
