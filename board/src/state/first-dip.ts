import type { Step, Value } from "../wire/types.ts";

/** How far below the side a shape lies at the centre front when it is first chosen, cm; the others are level. */
const DIPS: Record<string, Record<string, number>> = {
  "top-edge": { sweetheart: 4, scooped: 4, v: 6, square: 4 },
  hem: { shaped: 3, pointed: 5 },
};

/** Where every block ends: a hem there has no room for a point below it, and its side is raised instead. */
const LOWEST = "hip";

type Height = { [name: string]: Value };

/**
 * The step after another shape was chosen for a top edge or hem: what was level gets the shape's first dip or point,
 * so that it is seen at once. Heights that somebody has set apart stay as they are.
 */
export function withFirstDip(before: Step, after: Step): Step {
  const dips = DIPS[after.kind];
  if (!dips || before.shape === after.shape) return after;
  const [centre, side] = [heightOf(after.centre), heightOf(after.side)];
  if (!centre || !side) return after;
  const untouched = same(centre, side) || same(centre, lowered(side, dips[String(before.shape)] ?? 0));
  if (!untouched) return after;
  const dip = dips[String(after.shape)] ?? 0;
  return centre.level === LOWEST ? { ...after, side: lowered(centre, -dip) } : { ...after, centre: lowered(side, dip) };
}

function heightOf(value: Value | undefined): Height | null {
  return value && typeof value === "object" && !Array.isArray(value) && typeof value.level === "string" ? value : null;
}

/** A height told in proportion is lowered from its level, as both cannot be told together. */
function lowered(height: Height, cm: number): Height {
  if (cm === 0) return height;
  const offset = typeof height.offset_cm === "number" ? height.offset_cm : 0;
  return { level: height.level!, offset_cm: Math.round(10 * (offset - cm)) / 10 };
}

const parts = ({ level, offset_cm, share_to_next_level }: Height): string => JSON.stringify([level, offset_cm || 0, share_to_next_level || 0]);

const same = (a: Height, b: Height): boolean => parts(a) === parts(b);
