import type { Field, Step } from "../wire/types.ts";
import { said } from "./steps.ts";

/** How a garment is shut as a rule, by where; the place that opens most often first. */
const COMMONEST: Record<string, string> = { "centre-back": "zip", "centre-front": "buttons", side: "zip" };

/** A new closure where nothing opens yet, shut as is usual there. */
export function begunClosure(step: Step, others: readonly Step[]): Step {
  const taken = new Set(others.filter((other) => other.kind === "closure").map((other) => other.place));
  const place = Object.keys(COMMONEST).find((each) => !taken.has(each)) ?? "centre-back";
  return { ...step, place, type: COMMONEST[place]! };
}

/** A closure that was moved elsewhere before its maker has said how it is shut: as is usual there. */
export function movedClosure(fields: readonly Field[], before: Step, after: Step): Step {
  const usual = (step: Step) => COMMONEST[String(step.place)];
  const type = usual(after);
  if (after.kind !== "closure" || before.place === after.place || type === undefined || before.type !== usual(before)) return after;
  return said(fields, after, "type", type);
}
