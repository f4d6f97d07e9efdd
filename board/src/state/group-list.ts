import { BLANK, type GroupAsked, type GroupCloth, type GroupGarment, type KeptGroup } from "../wire/group.ts";
import type { GroupCard } from "../wire/types.ts";

export const MOST_ALIKE = 200;

/** The list with a design for some wearers: one more of what is there already. */
export function withGarments(list: GroupGarment[], design: string, wearers: string[], count: number): GroupGarment[] {
  const more = [...list];
  for (const wearer of wearers) {
    const at = more.findIndex((own) => own.design === design && own.wearer === wearer);
    if (at < 0) more.push({ design, wearer, count, outer: "" });
    else more[at] = { ...more[at]!, count: Math.min(MOST_ALIKE, more[at]!.count + count) };
  }
  return more;
}

/** A price or a number of percent that somebody typed: undefined where nothing is, null where it is none. */
export function typedNumber(text: string, most: number): number | undefined | null {
  const plain = text.trim().replace(",", ".");
  if (plain === "") return undefined;
  const value = Number(plain);
  return Number.isFinite(value) && value >= 0 && value <= most ? value : null;
}

/** All that is known of a cloth, with a part of it changed; what is undefined is not known any more. */
export function withKnown(known: Record<string, GroupCloth>, name: string, told: GroupCloth, part: GroupCloth): Record<string, GroupCloth> {
  const entries = Object.entries({ ...told, ...known[name], ...part }).filter(([, value]) => value !== undefined);
  return { ...known, [name]: Object.fromEntries(entries) as GroupCloth };
}

/** What a kept group asks for, with what it leaves out as usual. */
export function askedIn({ format: _format, ref: _ref, garments = [], spare, ...rest }: KeptGroup): GroupAsked {
  return {
    ...BLANK,
    ...rest,
    garments: garments.map((own) => ({ count: 1, outer: "", ...own })),
    spare: { ...BLANK.spare, ...spare },
  };
}

/** The reference of the group that was changed last. */
export function newestOf(groups: readonly GroupCard[]): string | undefined {
  return groups.reduce<GroupCard | undefined>((newest, own) => (newest && newest.version > own.version ? newest : own), undefined)?.ref;
}

/** The first plain reference that no group has. */
export function freeRef(groups: readonly GroupCard[]): string {
  for (let number = 1; ; number += 1) if (!groups.some(({ ref }) => ref === `group-${number}`)) return `group-${number}`;
}

/** What a group is called in a list: by its title, and by its reference too where another one has the same title. */
export function calledIn(groups: readonly GroupCard[], { ref, title }: GroupCard): string {
  return groups.some((other) => other.ref !== ref && other.title === title) ? `${title} (${ref})` : title;
}
