import assert from "node:assert/strict";
import { test } from "node:test";
import type { Point } from "../wire/types.ts";
import { emptyTrace } from "../wire/trace.ts";
import * as outline from "./outline.ts";
import { pressHint } from "./press-hint.ts";

const points: Point[] = [[0, 0], [100, 0], [100, 80]];
const begun = () => outline.withPoint(outline.withPoint(emptyTrace("own-01", ""), points[0]!), points[1]!);

test("over the point that was put down last, a second press ends the edge there", () => {
  const trace = begun();
  assert.deepEqual(pressHint(trace, "edges", [], [101, 1], 5), { does: "corner", at: [100, 0] });
  assert.deepEqual(pressHint(trace, "edges", [], null, 5), { does: "corner", at: [100, 0] });
  assert.equal(pressHint(trace, "edges", [], [140, 1], 5), null);
  assert.equal(pressHint(trace, "shape", [], [100, 0], 5), null);
  assert.equal(pressHint(outline.withCorner(trace), "edges", [], [100, 0], 5), null); // it is one already
  assert.equal(pressHint(emptyTrace("own-01", ""), "edges", [], [0, 0], 5), null);
});

test("over the first point, a press closes the piece; over the end of a level line it ends it", () => {
  const trace = outline.withPoint(outline.withCorner(begun()), points[2]!);
  assert.deepEqual(pressHint(trace, "edges", [], [1, 1], 5), { does: "close", at: [0, 0] });
  assert.deepEqual(pressHint(trace, "level", [points[0]!, points[1]!], [100, 2], 5), { does: "level", at: [100, 0] });
  assert.equal(pressHint(trace, "level", [points[0]!], [0, 0], 5), null);
});
