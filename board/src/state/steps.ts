import type { Design, Field, Step, StepKind, Value } from "../wire/types.ts";
import { freeName } from "./names.ts";

/** The steps of a plain bodice, as every design has them that says nothing else. */
export const PLAIN: Step[] = [
  { kind: "top-edge", uid: "neckline", shape: "straight", centre: { level: "upper-bust" }, side: { level: "upper-bust" } },
  { kind: "hem", uid: "hem", shape: "straight", centre: { level: "top-hip" }, side: { level: "top-hip" } },
];

/** A design with other steps. */
export const withSteps = (design: Design, steps: Step[]): Design => ({ ...design, steps });

/** A new step of a kind: its required fields, as usual. */
export function newStep(kind: string, form: StepKind, taken: readonly string[], level: string): Step {
  const step: Step = { kind, uid: freeName(kind, taken) };
  for (const field of form.fields) if (!field.optional && field.name !== "uid") step[field.name] = usual(field, level);
  return step;
}

/** What a field says that nobody has filled in. */
export function usual(field: Field, level: string): Value {
  if (field.default !== undefined && field.default !== null) return structuredClone(field.default);
  switch (field.type) {
    case "choice":
      return field.choices?.[0]?.value ?? "";
    case "height":
      return { level };
    case "switch":
      return false;
    case "text":
      return "";
    case "points":
    case "list":
      return [];
    default:
      return field.least ?? 0;
  }
}

/** What is cut first, what is set on it, what closes and stiffens it. */
const ORDER = [
  "top-edge", "bodice-top", "hem", "strap", "tie", "closure", "sleeve", "skirt", "waistband",
  "unfold", "join", "swing", "split", "gather", "spread", "peplum", "frill",
  "bones",
];

const rank = (kind: string) => (ORDER.includes(kind) ? ORDER.indexOf(kind) : ORDER.length);

/** Kinds of steps in the order in which a garment is made up. */
export const inOrder = (kinds: readonly string[]): string[] => [...kinds].sort((a, b) => rank(a) - rank(b));

/** The fields of a record that act, as its other fields are. */
export function acting(fields: readonly Field[], record: { [name: string]: Value }): Field[] {
  const usualOf = (name: string) => fields.find((field) => field.name === name)?.default ?? null;
  return fields.filter((field) =>
    Object.entries(field.when ?? {}).every(([name, values]) => values.includes(record[name] ?? usualOf(name))),
  );
}

/** The record with one field said otherwise (undefined: as usual), and without what thereby no longer acts. */
export function said<R extends { [name: string]: Value }>(fields: readonly Field[], record: R, name: string, value: Value | undefined): R {
  const { [name]: _old, ...rest } = record;
  const changed: { [name: string]: Value } = value === undefined ? rest : { ...rest, [name]: value };
  const acts = new Set(acting(fields, changed).map((field) => field.name));
  const idle = new Set(fields.map((field) => field.name).filter((known) => !acts.has(known)));
  return Object.fromEntries(Object.entries(changed).filter(([known]) => !idle.has(known))) as R;
}

/** A step as it is now, with what was written on an earlier state of it: field by field, so that nothing else goes back. */
export function patched(now: Step, before: Step, after: Step): Step {
  const found: { [field: string]: Value } = { ...now };
  for (const field of new Set([...Object.keys(before), ...Object.keys(after)])) {
    if (JSON.stringify(before[field]) === JSON.stringify(after[field])) continue;
    if (after[field] === undefined) delete found[field];
    else found[field] = after[field];
  }
  return found as Step;
}

/** The steps with one more, behind the last of those that come before its kind as a rule. */
export function placed(steps: readonly Step[], step: Step): Step[] {
  const before = steps.findLastIndex((other) => rank(other.kind) <= rank(step.kind));
  return [...steps.slice(0, before + 1), step, ...steps.slice(before + 1)];
}

/** The steps with the one at `from` moved to `to`. */
export function moved(steps: readonly Step[], from: number, to: number): Step[] {
  const rest = steps.filter((_, k) => k !== from);
  const step = steps[from];
  return step ? [...rest.slice(0, to), step, ...rest.slice(to)] : [...steps];
}

/** The steps with one called otherwise; what others say of it and of its lines (`uid/line`) goes along. */
export function renamed(steps: readonly Step[], uid: string, name: string): Step[] {
  const told = (value: Value, key: string): Value => {
    if (typeof value === "string") {
      if (value.startsWith(`${uid}/`)) return name + value.slice(uid.length);
      return value === uid && NAMES_STEPS.has(key) ? name : value;
    }
    if (Array.isArray(value)) return value.map((inner) => told(inner, key));
    if (value && typeof value === "object") return within(value);
    return value;
  };
  const within = (fields: Record<string, Value>) => Object.fromEntries(Object.entries(fields).map(([key, value]) => [key, told(value, key)]));
  return steps.map((step) => (step.uid === uid ? { ...(within(step) as Step), uid: name } : (within(step) as Step)));
}

/** Only there a plain text names a step: elsewhere it may be a level or a choice of that name. */
const NAMES_STEPS = new Set(["line", "on", "step"]);
