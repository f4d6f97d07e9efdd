/** What a design says of the whole garment: the parts that are no steps, each field by its way, `block.ease_cm.bust`. */

import type { Design, Field, Value } from "../wire/types.ts";
import { lengthText, MM, parseLength, type Unit } from "./length.ts";
import { said } from "./steps.ts";

type Values = { [name: string]: Value };

/** Way -> value of all that the design says; a choice that is said otherwise there is told by its own name. */
export function saidOf(design: Design, fields: readonly Field[]): Values {
  const found: Values = {};
  for (const field of fields) {
    const value = at(design, field.name.split("."));
    if (value !== undefined && value !== null) found[field.name] = chosen(field, value);
  }
  return found;
}

/** The design with one field said otherwise (undefined: as usual), and without what thereby no longer acts. */
export function withField(design: Design, fields: readonly Field[], name: string, value: Value | undefined): Design {
  const before = saidOf(design, fields);
  const now = said(fields, before, name, value);
  let changed: Values = design as unknown as Values;
  for (const { name: way } of fields) if (before[way] !== now[way]) changed = put(changed, way.split("."), now[way]);
  return changed as unknown as Design;
}

/** Whether a value is the maker's own, and no other word for what is usual. */
export function isOwn(field: Field, value: Value | undefined): boolean {
  if (value === undefined || value === null) return false;
  if (typeof value === "object") return Object.keys(value).length > 0;
  if (field.default === undefined) return true;
  return field.type === "length" ? millimetres(field, value) !== millimetres(field, field.default) : value !== field.default;
}

/** The field with what is usual for it where that is what another field says now. */
export function asLike(field: Field, fields: readonly Field[], values: Values): Field {
  const like = fields.find((other) => other.name === field.like);
  const usual = like && (values[like.name] ?? like.default);
  return usual === undefined || usual === null ? field : { ...field, default: usual };
}

/** What is usual, as a person reads it; "" where that is told in other words. */
export function usualText(field: Field, unit: Unit, yes: string, no: string): string {
  const usual = field.default;
  if (usual === undefined || usual === null) return "";
  if (field.type === "length") return lengthText(millimetres(field, usual) ?? 0, unit);
  if (typeof usual === "boolean") return usual ? yes : no;
  return field.choices?.find((choice) => choice.value === usual)?.label ?? String(usual);
}

/** The least and most that a field takes, where a value lies outside: as a person reads them. Null where it lies within. */
export function outside(field: Field, value: Value | undefined, unit: Unit): [string, string] | null {
  if (field.least === undefined || field.most === undefined) return null;
  const written = field.type === "widths" && value && typeof value === "object" ? Object.values(value) : [value];
  const text = (limit: number) => (field.unit ? lengthText(limit * factor(field), unit) : String(limit));
  const misses = written.some((each) => {
    const size = field.unit ? millimetres(field, each) : each;
    return typeof size === "number" && (size < field.least! * factor(field) || size > field.most! * factor(field));
  });
  return misses ? [text(field.least), text(field.most)] : null;
}

/** Whether an entry of a list still waits for something to be written. */
export function isUnfinished(field: Field, value: Value | undefined): boolean {
  if (!Array.isArray(value) || !Array.isArray(field.of)) return false;
  const needed = field.of.filter((part) => !part.optional).map((part) => part.name);
  return value.some((row) => needed.some((name) => !row || typeof row !== "object" || Array.isArray(row) || row[name] === undefined));
}

/** The sentence of a refusal in the words of the page: without the part of the file, its names of fields and choices. */
export function plainly(fields: readonly Field[], message: string): string {
  const part = /^(\w+): /.exec(message);
  const own = part && fields.some((field) => field.name.startsWith(`${part[1]}.`)) ? message.slice(part[0].length) : message;
  let near = "";
  const told = own.replace(/([^"]*)"([\w-]+)"/g, (_, before: string, word: string) => {
    near += before;
    const named = fields.find((field) => leaf(field) === word);
    const label = named?.label ?? choiceNamed(fields, word, near);
    near += named?.label ?? word;
    return `${before}“${label ?? word}”`;
  });
  const plain = fields.reduce((text, field) => text.replaceAll(field.name, field.label), told);
  return plain.charAt(0).toUpperCase() + plain.slice(1);
}

const leaf = (field: Field): string => field.name.slice(field.name.lastIndexOf(".") + 1);

/** What a choice is called, of the field that was spoken of last. */
function choiceNamed(fields: readonly Field[], value: string, before: string): string | undefined {
  const said = (field: Field) => before.lastIndexOf(field.label) + field.label.length;
  const having = fields.filter((field) => before.includes(field.label) && field.choices?.some((choice) => choice.value === value));
  const [last] = having.sort((a, b) => said(b) - said(a) || b.label.length - a.label.length);
  return last?.choices?.find((choice) => choice.value === value)?.label;
}

const factor = (field: Field): number => (field.unit === "cm" ? MM.cm : 1);

function millimetres(field: Field, value: Value | undefined): number | null {
  if (typeof value === "number") return Math.round(value * factor(field) * 1e6) / 1e6;
  return typeof value === "string" ? parseLength(value, "cm") : null;
}

const chosen = (field: Field, value: Value): Value => field.choices?.find((choice) => choice.also?.includes(value))?.value ?? value;

const inside = (value: unknown): value is Values => typeof value === "object" && value !== null && !Array.isArray(value);

function at(value: unknown, way: readonly string[]): Value | undefined {
  const [name, ...rest] = way;
  if (name === undefined) return value as Value;
  return inside(value) ? at(value[name], rest) : undefined;
}

/** A record with the value at the end of a way; undefined takes it out, and with it every record that it leaves empty. */
function put(record: Values, [name, ...rest]: readonly string[], value: Value | undefined): Values {
  const { [name!]: old, ...others } = record;
  if (rest.length === 0) return value === undefined ? others : { ...record, [name!]: value };
  const inner = put(inside(old) ? old : {}, rest, value);
  return Object.keys(inner).length === 0 ? others : { ...record, [name!]: inner };
}
