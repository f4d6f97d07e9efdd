import assert from "node:assert/strict";
import { test } from "node:test";
import { freeName, isName } from "./names.ts";

test("a title becomes a name that a file may have, and none that is taken", () => {
  assert.equal(freeName("Lantern bodice, sweetheart", []), "lantern-bodice-sweetheart");
  assert.equal(freeName("Fête d'été", []), "fete-d-ete");
  assert.equal(freeName("hem", ["hem", "hem-2"]), "hem-3");
  assert.equal(freeName("灯", []), "new");
  for (const title of ["x".repeat(90), "--a--", "Ä", "a".repeat(35) + " b c"]) assert.ok(isName(freeName(title, [])), title);
});

test("what is no name", () => {
  for (const text of ["", "-a", "A", "a b", "a".repeat(41), "a_b"]) assert.ok(!isName(text), text);
});
