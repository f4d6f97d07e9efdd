import type { Design } from "../wire/types.ts";

/** What a design says about one cloth; what is left out is as usual. */
export interface Cloth {
  width_cm?: number | string;
  folded?: boolean;
  one_way?: boolean;
  [more: string]: unknown;
}

const FIELD = "cloth_to_buy";

/** What the design says about a cloth. */
export function clothOf(design: Design, name: string): Cloth {
  const said = (design[FIELD] as Record<string, Cloth> | undefined) ?? {};
  return said[name] ?? {};
}

/** The design with something else said about a cloth; `undefined` says nothing of it any more. */
export function withCloth(design: Design, name: string, change: Partial<Cloth>): Design {
  const said = (design[FIELD] as Record<string, Cloth> | undefined) ?? {};
  const cloth: Cloth = { ...said[name], ...change };
  for (const key of Object.keys(cloth)) if (cloth[key] === undefined || cloth[key] === null) delete cloth[key];
  return { ...design, [FIELD]: { ...said, [name]: cloth } };
}

/** The design with what it says about a cloth under another name, as when the cloth is called otherwise. */
export function withClothName(design: Design, was: string, now: string): Design {
  const said = (design[FIELD] as Record<string, Cloth> | undefined) ?? {};
  const { [was]: cloth, ...others } = said;
  if (cloth === undefined || was === now) return design;
  return { ...design, [FIELD]: { [now]: cloth, ...others } };
}
