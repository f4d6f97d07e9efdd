import type { SeamPlace, Value } from "../wire/types.ts";
import { MM } from "./length.ts";

type Row = { [name: string]: Value };

const AT = "distance_cm";
const isRow = (value: Value): value is Row => typeof value === "object" && value !== null && !Array.isArray(value);
const tenth = (mm: number): number => Math.round(mm) / MM.cm;

/** Where a seam crosses a level now, cm to the millimetre; undefined where the block does not go. */
function now(row: Row, places: readonly SeamPlace[]): number | undefined {
  const found = places.find((place) => place.line === row.line && place.level === row.level);
  return found && tenth(found.distance);
}

/**
 * Places of seams as they are written: one that is new, or was led to another seam or level, begins where that lies now.
 *
 * @param before as they were shown.
 */
export function begunPlaces(before: Value | undefined, written: Value | undefined, places: readonly SeamPlace[]): Value | undefined {
  if (!Array.isArray(written)) return written;
  const shown = Array.isArray(before) ? before.filter(isRow) : [];
  return written.map((row, k) => {
    if (!isRow(row)) return row;
    const was = shown.length === written.length ? shown[k] : undefined;
    const led = was && (was.line !== row.line || was.level !== row.level) && was[AT] === now(was, places);
    const here = row[AT] === undefined || led ? now(row, places) : undefined;
    if (here !== undefined) return { ...row, [AT]: here };
    const { [AT]: gone, ...rest } = row;
    return led ? rest : gone === undefined ? rest : row;
  });
}

/** Whether all that is new among them still lies where the seams lie anyway: then there is nothing to save yet. */
export function allAtRest(saved: Value | undefined, written: Value | undefined, places: readonly SeamPlace[]): boolean {
  if (!Array.isArray(written)) return false;
  const kept = new Set((Array.isArray(saved) ? saved : []).map((row) => JSON.stringify(row)));
  const fresh = written.filter((row) => !kept.has(JSON.stringify(row)));
  return fresh.length > 0 && written.length - fresh.length === kept.size && fresh.every((row) => isRow(row) && row[AT] !== undefined && row[AT] === now(row, places));
}
