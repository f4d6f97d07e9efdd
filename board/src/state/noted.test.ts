import assert from "node:assert/strict";
import { test } from "node:test";
import type { Step } from "../wire/types.ts";
import { named, withDraft } from "./noted.ts";

const note = (uid: string, amount_cm: number): Step => ({ uid, kind: "take-in", amount_cm });
const theirs = [note("n1", 1), note("note", 2)];

test("a new note takes nothing from one that another page has kept meanwhile", () => {
  assert.deepEqual(withDraft(theirs, { note: note("note", 3), fresh: true }), [...theirs, note("note-2", 3)]);
});

test("a changed note is found wherever it stands now", () => {
  assert.deepEqual(withDraft(theirs, { note: note("note", 3), fresh: false }), [theirs[0], note("note", 3)]);
});

test("a changed note that another page has removed comes back and replaces none", () => {
  assert.deepEqual(withDraft(theirs, { note: note("n0", 3), fresh: false }), [...theirs, note("n0", 3)]);
});

test("notes of a file without uids are told apart", () => {
  const plain = { kind: "sway-back" } as Step;
  assert.deepEqual(named([note("n1", 1), plain, plain]).map((each) => each.uid), ["n1", "note-2", "note-3"]);
});
