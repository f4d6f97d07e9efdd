import assert from "node:assert/strict";
import { test } from "node:test";
import { emptyTrace, type TracedPiece, type TruingChange } from "../wire/trace.ts";
import { byOutline } from "./truings.ts";

const piece = (id: string): TracedPiece => ({ id, label: "", whole: false, closed: true, edges: [], levels: [], grain: null, notches: [], marks: [] });
const change = (of: string, number: number, most_mm: number, taken = true): TruingChange => ({ piece: of, edge: `${of}.${number}`, number, most_mm, at: [0, 0], taken, other: null });

test("changes are told in the order of the pieces and their outlines, however large and taken or not", () => {
  const trace = { ...emptyTrace("own-01", ""), pieces: [piece("SF"), piece("CF")] };
  const told = byOutline(trace, [change("CF", 2, 9), change("SF", 12, 1), change("CF", 1, 3, false), change("SF", 3, 2)]);
  assert.deepEqual(
    told.map(({ edge }) => edge),
    ["SF.3", "SF.12", "CF.1", "CF.2"],
  );
});
