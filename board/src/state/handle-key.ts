import type { Handle } from "../wire/types.ts";

/** What tells a handle from every other. */
export const keyOf = ({ step, name, piece }: Pick<Handle, "step" | "name" | "piece">): string => `${step}/${name}/${piece}`;
