import type { Choice, Named } from "../wire/types.ts";

/** What a level or line is called: the server's own words, or its permanent name with spaces. */
export function nameOf(id: string, known: readonly (string | Named)[]): string {
  const found = known.find((one) => typeof one !== "string" && (one.id ?? one.name) === id) as Named | undefined;
  return found?.label ?? id.replaceAll("-", " ");
}

/** With a capital, as a label begins. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Levels or lines as a field offers them. */
export const choicesOf = (known: readonly (string | Named)[]): Choice[] => idsOf(known).map((id) => ({ value: id, label: nameOf(id, known) }));

/** The permanent names of levels or lines. */
export const idsOf = (known: readonly (string | Named)[]): string[] =>
  known.map((one) => (typeof one === "string" ? one : (one.id ?? one.name ?? ""))).filter(Boolean);
