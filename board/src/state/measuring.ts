import { amountText, lengthText, MM, parseAngle, parseLength, type Unit } from "./length.ts";

/** What is measured, as the server's vocabulary tells it: lengths have limits in mm, angles in degrees. */
export interface Measured {
  name: string;
  label: string;
  required: boolean;
  /** Whether only sleeves ask for it. */
  for_sleeves?: boolean;
  quantity?: string;
  least_mm?: number;
  most_mm?: number;
  least_deg?: number;
  most_deg?: number;
  likely?: { least_mm?: number; most_mm?: number };
}

/** One field of the page: what was typed, and the mm or degrees that it says; null where it says none. */
export interface Entry {
  text: string;
  amount: number | null;
}

export type Entries = Record<string, Entry>;

// From the head down, as one goes along the body with the tape.
const DOWNWARDS = [
  "stature",
  "neck_base_girth",
  "shoulder_length",
  "shoulder_slope_deg",
  "back_neck_to_waist",
  "side_neck_to_bust_point",
  "across_front",
  "across_back",
  "arm_length",
  "upper_arm_girth",
  "wrist_girth",
  "upper_bust_girth",
  "underarm_to_waist",
  "bust_girth",
  "bust_point_span",
  "bust_height",
  "bust_point_to_underbust",
  "underbust_girth",
  "waist_girth",
  "waist_to_top_hip",
  "top_hip_girth",
  "waist_to_hip",
  "hip_girth",
];

/** From the neck to the hip; what is not known here comes last, in the server's order. */
export function downTheBody<Kind extends Measured>(measured: readonly Kind[]): Kind[] {
  const rank = (one: Measured) => (DOWNWARDS.includes(one.name) ? DOWNWARDS.indexOf(one.name) : DOWNWARDS.length);
  return [...measured].sort((one, other) => rank(one) - rank(other));
}

export const isAngle = (measured: Measured): boolean => measured.quantity === "angle";

/** What a person wrote, in mm or degrees. */
export const readAmount = (text: string, measured: Measured, unit: Unit | "mm"): number | null =>
  isAngle(measured) ? parseAngle(text) : parseLength(text, unit);

/** An amount as it stands in its field. */
export const fieldText = (amount: number, measured: Measured, unit: Unit): string =>
  isAngle(measured) ? String(Math.round(amount * 10) / 10) : amountText(amount, unit);

/** An amount with its unit. */
export const amountWords = (amount: number, measured: Measured, unit: Unit): string =>
  isAngle(measured) ? `${fieldText(amount, measured, unit)}°` : lengthText(amount, unit);

/** An estimate as it may be read: to half a centimetre, a quarter of an inch or a degree, since it is no closer. */
export function estimateWords(amount: number, measured: Measured, unit: Unit): string {
  const step = isAngle(measured) ? 1 : unit === "in" ? MM.in / 4 : MM.cm / 2;
  return amountWords(Math.round(amount / step) * step, measured, unit);
}

/** What nobody measures: the limit that is missed, and the other unit where that would make it likely. */
export function outside(amount: number, measured: Measured, unit: Unit): { limit: number; below: boolean; meant: Unit | null } | null {
  const least = measured.least_deg ?? measured.least_mm ?? -Infinity;
  const most = measured.most_deg ?? measured.most_mm ?? Infinity;
  if (amount >= least && amount <= most) return null;
  const below = amount < least;
  const other: Unit = unit === "cm" ? "in" : "cm";
  const otherwise = (amount / MM[unit]) * MM[other];
  const { least_mm: low, most_mm: high } = measured.likely ?? {};
  const meant = low !== undefined && high !== undefined && otherwise >= low && otherwise <= high ? other : null;
  return { limit: below ? least : most, below, meant };
}

/** The measurement document of what was typed; what says no amount stays out of it. */
export function measurementDocument(ref: string, unit: Unit, entries: Entries, measured: readonly Measured[]) {
  const measurements: Record<string, number> = {};
  for (const one of measured) {
    const amount = entries[one.name]?.amount;
    if (amount === null || amount === undefined) continue;
    measurements[one.name] = isAngle(one) ? amount : Math.round((amount / MM[unit]) * 1e6) / 1e6;
  }
  return { format: "panelwright-measurements/1", ref, unit, measurements };
}

/**
 * The entries of a saved document, whose numbers are in its own unit and whose texts may name theirs. A text that is not
 * understood stays in its field, where it is marked and keeps the wearer from being saved without it.
 */
export function entriesOf(document: { unit?: unknown; measurements?: unknown }, measured: readonly Measured[], unit: Unit): Entries {
  const own = document.unit === "mm" || document.unit === "in" ? document.unit : "cm";
  const said = (document.measurements ?? {}) as Record<string, unknown>;
  return Object.fromEntries(measured.map((one) => [one.name, entryOf(said[one.name], one, own, unit)]));
}

function entryOf(value: unknown, measured: Measured, own: Unit | "mm", unit: Unit): Entry {
  const size = isAngle(measured) || own === "mm" ? 1 : MM[own];
  const amount = typeof value === "number" ? value * size : typeof value === "string" ? readAmount(value, measured, own) : null;
  if (amount !== null) return { text: fieldText(amount, measured, unit), amount };
  return { text: value === undefined ? "" : String(value), amount };
}

/** A neutral reference that nobody has: `w-05` after `w-04`. */
export function freeRef(taken: readonly string[]): string {
  let number = 1;
  const named = () => `w-${String(number).padStart(2, "0")}`;
  while (taken.includes(named())) number += 1;
  return named();
}

/** Whether it can be a wearer's reference: a digit in it, so that a bare name does not slip in. */
export const isRef = (text: string): boolean => /^(?=[a-z-]*[0-9])[a-z][a-z0-9-]{0,30}$/.test(text);
