import assert from "node:assert/strict";
import { test } from "node:test";
import type { InsideLine, Piece } from "../wire/types.ts";
import { namedLevels } from "./level-names.ts";

const LEVELS = ["bust", "waist"];
const line = (id: string, kind: InsideLine["kind"]): InsideLine => ({ id, kind, d: "M0 0L100 0" });
const piece = (id: string, x: number, inside: InsideLine[], layer: Piece["layer"] = "outer"): Piece => ({ id, layer, inside, box: [0, 0, 100, 100], place: [x, 0] }) as unknown as Piece;
const told = (pieces: Piece[]) => namedLevels(pieces, LEVELS).map(({ id, piece: on }) => `${id} on ${on.id}`);

test("levels are named on the leftmost piece", () => {
  const both = [line("bust", "level"), line("waist", "level")];
  assert.deepEqual(told([piece("CF", 0, both), piece("CB", -300, both)]), ["bust on CB", "waist on CB"]);
});

test("a level that an edge crosses keeps its name where its line begins", () => {
  const back = piece("CB", -300, [line("waist", "level")]);
  const front = piece("CF", 0, [line("bust", "guide"), line("waist", "level")]);
  assert.deepEqual(told([front, back]), ["waist on CB", "bust on CF"]);
});

test("it is named where its line is longest, not where an edge has left a corner of it", () => {
  const back = piece("CB", -600, [line("waist", "level")]);
  const cut = piece("SB", -300, [{ id: "bust", kind: "guide", d: "M60 0L100 0" }]);
  const front = piece("CF", 0, [line("bust", "guide")]);
  assert.deepEqual(told([back, cut, front]), ["waist on CB", "bust on CF"]);
  assert.deepEqual(told([piece("CB", -600, [{ id: "waist", kind: "level", d: "M60 0L100 0" }]), piece("CF", 0, [line("waist", "level")])]), ["waist on CB"]);
});

test("other guides are no levels, and other layers bear no names", () => {
  assert.deepEqual(told([piece("CB", 0, [line("bones/0", "guide")]), piece("CB/facing", -300, [line("waist", "level")], "facing")]), []);
});
