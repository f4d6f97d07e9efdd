import { saveDesign } from "../wire/ask.ts";
import type { Trace } from "../wire/trace.ts";
import type { Design } from "../wire/types.ts";
import { savedAsNew } from "./fresh.ts";
import { freeName } from "./names.ts";

const CM = 10; // mm

/** A design on a traced block, with nothing done to it yet; what the outline had for allowance, the pieces keep. */
export function designOn(trace: Trace, trued: boolean, ref: string, title: string): Design {
  const finish = trace.allowance_mm > 0 ? { finish: { allowance_cm: trace.allowance_mm / CM } } : {};
  return { format: "panelwright-design/1", ref, title, steps: [], traced: { ref: trace.ref, true: trued }, ...finish };
}

/** Save one under a reference that no design has; the reference. */
export function beginDesignOn(trace: Trace, trued: boolean, title: string, what: string, taken: () => string[], look: () => Promise<void>): Promise<string> {
  const name = () => freeName(`${trace.ref}-design`, taken());
  return savedAsNew(name, (ref) => saveDesign(designOn(trace, trued, ref, title), what, null), look);
}
