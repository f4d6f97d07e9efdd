import type { Named, Value } from "../wire/types.ts";
import { words } from "../words.ts";
import type { HandleField } from "./handle-field.ts";
import { lengthText, MM, parseLength, type Unit } from "./length.ts";
import { nameOf } from "./named.ts";

type Levels = readonly (string | Named)[];

/** What a handle sets, as it is read beside it while it is moved; empty where nothing is known. */
export function numberText(found: HandleField | null, unit: Unit, levels: Levels): string {
  if (!found) return "";
  const { field, value } = found;
  if (field.type === "height") return heightText(value, unit, levels);
  if (field.type === "length") {
    const mm = lengthOf(value, field.unit === "mm" ? 1 : MM.cm);
    return mm === null ? "" : lengthText(mm, unit);
  }
  return typeof value === "number" ? words.exact.percent(percentOf(value)) : "";
}

/** `1.5 cm above bust`, `on bust`. */
function heightText(value: Value | undefined, unit: Unit, levels: Levels): string {
  if (!value || typeof value !== "object" || Array.isArray(value) || typeof value.level !== "string") return "";
  const level = nameOf(value.level, levels);
  if (typeof value.share_to_next_level === "number" && value.share_to_next_level) {
    return words.exact.share(percentOf(value.share_to_next_level), level);
  }
  const mm = lengthOf(value.offset_cm, MM.cm) ?? 0;
  if (mm === 0) return words.exact.on(level);
  return mm > 0 ? words.exact.above(lengthText(mm, unit), level) : words.exact.below(lengthText(-mm, unit), level);
}

function lengthOf(value: Value | undefined, factor: number): number | null {
  if (typeof value === "number") return value * factor;
  return typeof value === "string" ? parseLength(value, "cm") : null;
}

const percentOf = (share: number): string => String(Math.round(1000 * share) / 10).replace("-", "−");
