import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { amountWords, downTheBody, entriesOf, estimateWords, fieldText, freeRef, isRef, measurementDocument, outside, readAmount, type Measured } from "./measuring.ts";

const bust: Measured = { name: "bust_girth", label: "bust girth", required: true, least_mm: 500, most_mm: 2000, likely: { least_mm: 700, most_mm: 1500 } };
const slope: Measured = { name: "shoulder_slope_deg", label: "shoulder slope", required: false, quantity: "angle", least_deg: 0, most_deg: 50 };
const tail: Measured = { name: "tail_length", label: "tail length", required: false };

test("measurements go down the body, unknown ones last", () => {
  assert.deepEqual(downTheBody([tail, bust, slope]).map((one) => one.name), ["shoulder_slope_deg", "bust_girth", "tail_length"]);
});

test("what is typed is read in the page's unit or its own", () => {
  assert.equal(readAmount("88,5", bust, "cm"), 885);
  assert.equal(readAmount("34 3/4", bust, "in"), 34.75 * 25.4);
  assert.equal(readAmount("34¾", bust, "in"), 34.75 * 25.4);
  assert.equal(readAmount("34 3/4 in", bust, "cm"), 34.75 * 25.4);
  assert.equal(readAmount("22,6°", slope, "in"), 22.6);
  assert.equal(readAmount("wide", bust, "cm"), null);
  assert.equal(readAmount("steep", slope, "cm"), null);
});

/** What the program itself is tested with: [text, unit of a bare number, mm or null] and [text, degrees or null]. */
const written = JSON.parse(readFileSync(new URL("../../../tests/body/written-amounts.json", import.meta.url), "utf8")) as {
  lengths: [string, "mm" | "cm" | "in", number | null][];
  angles: [string, number | null][];
};

const same = (read: number | null, meant: number | null) => read === meant || (read !== null && meant !== null && Math.abs(read - meant) < 1e-9);

test("what the program reads the page reads alike, in a field and in a saved document", () => {
  for (const [text, unit, mm] of written.lengths) {
    assert.ok(same(readAmount(text, bust, unit), mm), text);
    const entry = entriesOf({ unit, measurements: { bust_girth: text } }, [bust], "cm").bust_girth!;
    assert.ok(same(entry.amount, mm), text);
    if (mm === null) assert.equal(entry.text, text);
  }
  for (const [text, degrees] of written.angles) assert.ok(same(readAmount(text, slope, "in"), degrees), text);
});

test("what is not understood stays in its field", () => {
  const entries = entriesOf({ unit: "cm", measurements: { bust_girth: "about 88", shoulder_slope_deg: "steep" } }, [bust, slope, tail], "in");
  assert.deepEqual(entries, {
    bust_girth: { text: "about 88", amount: null },
    shoulder_slope_deg: { text: "steep", amount: null },
    tail_length: { text: "", amount: null },
  });
});

test("changing the unit of the page changes no amount", () => {
  assert.equal(fieldText(885, bust, "cm"), "88.5");
  assert.equal(amountWords(882.65, bust, "in"), "34 3/4 in");
  assert.equal(amountWords(22.6, slope, "in"), "22.6°");
});

test("an estimate is told no closer than it is", () => {
  assert.equal(estimateWords(1734.6, bust, "cm"), "173.5 cm");
  assert.equal(estimateWords(882.65, bust, "in"), "34 3/4 in");
  assert.equal(estimateWords(22.6, slope, "cm"), "23°");
});

test("a girth of 34 was read in inches, one of 88.5 cm is possible, one of 900 cm never", () => {
  assert.deepEqual(outside(340, bust, "cm"), { limit: 500, below: true, meant: "in" });
  assert.equal(outside(885, bust, "cm"), null);
  assert.deepEqual(outside(9000, bust, "cm"), { limit: 2000, below: false, meant: null });
  assert.equal(outside(23, slope, "cm"), null);
  assert.equal(outside(80, slope, "cm")?.limit, 50);
});

test("a document says what was typed and nothing more", () => {
  const entries = { bust_girth: { text: "34 3/4", amount: 882.65 }, shoulder_slope_deg: { text: "22.6", amount: 22.6 }, tail_length: { text: "?", amount: null } };
  const document = measurementDocument("w-07", "in", entries, [bust, slope, tail]);
  assert.deepEqual(document.measurements, { bust_girth: 34.75, shoulder_slope_deg: 22.6 });
  assert.deepEqual(entriesOf(document, [bust, slope, tail], "cm").bust_girth, { text: "88.27", amount: 882.65 });
});

test("a saved document may be in mm and hold texts", () => {
  const read = (unit: string, value: unknown) => entriesOf({ unit, measurements: { bust_girth: value } }, [bust], "cm").bust_girth!.amount;
  assert.equal(read("mm", 885), 885);
  assert.equal(read("mm", "885"), 885);
  assert.equal(read("mm", "88.5 cm"), 885);
  assert.equal(read("cm", "34 3/4 in"), 882.65);
  assert.equal(read("in", "34 3/4"), 882.65);
});

test("a reference has a digit and is free", () => {
  assert.equal(freeRef(["w-01", "w-02", "size-88"]), "w-03");
  assert.ok(isRef("w-05"));
  assert.ok(!isRef("anna"));
  assert.ok(!isRef("5w"));
});
