import type { Field, Lead, Outcome, StepKind } from "../wire/types.ts";

/** What a field that a finding leads to is called, and of which step it is one; null where the page does not have it. */
export function leadText(lead: Lead, garment: readonly Field[], kinds: { [kind: string]: StepKind }, outcomes: readonly Outcome[]): string | null {
  if (!lead.step) return garment.find((field) => field.name === lead.field)?.label ?? null;
  const outcome = outcomes.find((known) => known.step === lead.step);
  if (!outcome) return null;
  const field = kinds[outcome.kind]?.fields.find((known) => known.name === lead.field);
  return field ? `${outcome.label}, ${field.label.replace(/ \(.*\)$/, "")}` : outcome.label;
}

/** Where the hand goes on: the field's own, or the heading that it stands under where it is not shown. */
export function handOn(within: HTMLElement, field: string | undefined): void {
  const own = field ? within.querySelector<HTMLElement>(`[data-field="${CSS.escape(field)}"] :is(input, select, button)`) : null;
  (own ?? within.querySelector<HTMLElement>("[aria-expanded=true]"))?.focus();
}
