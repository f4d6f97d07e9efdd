import type { Field, Handle, Step, StepKind, Value } from "../wire/types.ts";
import { acting } from "./steps.ts";

/** The field of a step that a handle changes, with what it says now. */
export interface HandleField {
  field: Field;
  value: Value | undefined;
  /** The step with another value. */
  with(value: Value | undefined): Step;
}

const FIELDS: Record<string, Record<string, string[]>> = {
  "top-edge": { centre: ["centre"], side: ["side"], back: ["back"] },
  hem: { centre: ["centre"], side: ["side"], back: ["back"] },
  "bodice-top": {
    "front depth": ["front_depth_cm"],
    "back depth": ["back_depth_cm"],
    width: ["width_cm"],
    armhole: ["armhole_lower_cm"],
    shoulder: ["shoulder_in_cm"],
  },
  strap: {
    width: ["width_cm"],
    foot: ["width_at_foot_cm"],
    front: ["at_front_cm"],
    back: ["at_back_cm"],
    end: ["length_cm", "tail_cm"],
    shoulder: ["at_shoulder_cm", "share_of_shoulder"],
  },
  tie: { height: ["height"], width: ["width_cm"], "end width": ["end_width_cm"], end: ["length_cm", "tail_cm"] },
  closure: { end: ["down_to", "opening_cm"], gap: ["gap_cm"], spacing: ["spacing_cm"] },
  bones: { top: ["up_to"] },
};
const POINT = /^point (\d+)$/;

/** What a handle changes, as a field to write in; null where only moving it by a length can be told. */
export function fieldOf(handle: Handle, step: Step | undefined, form: StepKind | undefined): HandleField | null {
  if (!step || !form) return null;
  const point = POINT.exec(handle.name);
  if (point) return ofPoint(Number(point[1]) - 1, handle.label, step);
  const acts = new Set(acting(form.fields, step).map((known) => known.name));
  const named = FIELDS[step.kind]?.[handle.name]?.filter((each) => acts.has(each)) ?? [];
  // Of several, the one that the step says.
  const name = named.length > 1 ? named.find((each) => step[each] !== undefined && step[each] !== null) : named[0];
  const field = form.fields.find((known) => known.name === name);
  if (!field) return null;
  return { field: { ...field, label: handle.label }, value: step[field.name], with: (value) => put(step, field.name, value) };
}

/** Whether a handle sets a field that the step may leave open, and does. */
export function leftOpen(handle: Handle, step: Step | undefined): boolean {
  const named = step ? (FIELDS[step.kind]?.[handle.name] ?? []) : [];
  return named.length > 0 && named.every((name) => step?.[name] === undefined || step[name] === null);
}

function ofPoint(k: number, label: string, step: Step): HandleField | null {
  const points = Array.isArray(step.points) ? step.points : [];
  const point = points[k];
  if (point === undefined) return null;
  return {
    field: { name: "height", label, type: "height", optional: false },
    value: point,
    with: (value) => ({ ...step, points: points.map((other, n) => (n === k && value !== undefined ? value : other)) }),
  };
}

function put(step: Step, name: string, value: Value | undefined): Step {
  const { [name]: _old, ...rest } = step;
  return (value === undefined ? rest : { ...rest, [name]: value }) as Step;
}

/** The level that a height lies on exactly; null where it is above or below one. */
export function onLevel(value: Value | undefined): string | null {
  if (!value || typeof value !== "object" || Array.isArray(value) || typeof value.level !== "string") return null;
  return value.offset_cm || value.share_to_next_level ? null : value.level;
}
