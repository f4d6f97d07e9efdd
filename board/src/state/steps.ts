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
  for (const field of form.fields) if (!field.optional) step[field.name] = usual(field, level);
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

/** The steps with one more, behind the last of those that come before its kind as a rule (the order of `kinds`). */
export function placed(steps: readonly Step[], step: Step, kinds: readonly string[]): Step[] {
  const rank = (kind: string) => (kinds.includes(kind) ? kinds.indexOf(kind) : kinds.length);
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
  const told = (value: Value): Value => {
    if (typeof value === "string") {
      return value === uid ? name : value.startsWith(`${uid}/`) ? name + value.slice(uid.length) : value;
    }
    if (Array.isArray(value)) return value.map(told);
    if (value && typeof value === "object") return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, told(inner)]));
    return value;
  };
  return steps.map((step) => {
    if (step.uid === uid) return { ...step, uid: name };
    const others = Object.entries(step).map(([key, value]) => [key, key === "kind" || key === "uid" || !speaksOfSteps(key, value) ? value : told(value)]);
    return Object.fromEntries(others) as Step;
  });
}

/** Words of choices (`"from": "hem"` of a tie's own) are no steps: a plain text is one only where it names a line. */
function speaksOfSteps(key: string, value: Value): boolean {
  return typeof value !== "string" || value.includes("/") || ["line", "on", "step"].includes(key);
}
