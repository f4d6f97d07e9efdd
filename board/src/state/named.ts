import type { Named } from "../wire/types.ts";

/** What a level or line is called: the server's own words, or its permanent name with spaces. */
export function nameOf(id: string, known: readonly (string | Named)[]): string {
  const found = known.find((one) => typeof one !== "string" && (one.id ?? one.name) === id) as Named | undefined;
  return found?.label ?? id.replaceAll("-", " ");
}

/** The permanent names of levels or lines. */
export const idsOf = (known: readonly (string | Named)[]): string[] =>
  known.map((one) => (typeof one === "string" ? one : (one.id ?? one.name ?? ""))).filter(Boolean);
