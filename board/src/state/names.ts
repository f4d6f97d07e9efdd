const LONGEST = 40;

/** Whether it can be the permanent name of a step, wearer or design. */
export const isName = (text: string): boolean => /^[a-z0-9][a-z0-9-]{0,39}$/.test(text);

/** A permanent name from a title, that is not taken: `lantern-bodice`, then `lantern-bodice-2`. */
export function freeName(title: string, taken: readonly string[]): string {
  const plain = title
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-");
  const stem = plain.replace(/^-+/, "").slice(0, LONGEST - 4).replace(/-+$/, "") || "new";
  let name = stem;
  for (let k = 2; taken.includes(name); k++) name = `${stem}-${k}`;
  return name;
}
