import assert from "node:assert/strict";
import { test } from "node:test";
import { toShow } from "./in-view.ts";

test("what is in view stays", () => assert.equal(toShow(100, 500, 120, 300), 0));

test("a heading above comes down to the rim", () => assert.equal(toShow(100, 500, 40, 300), -60));

test("a field below comes up", () => assert.equal(toShow(100, 500, 450, 560), 60));

test("but never so far that its heading goes", () => assert.equal(toShow(100, 500, 450, 900), 350));
