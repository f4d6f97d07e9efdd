/** Between what is brought into view and the rim of its column, px. */
const RIM = 12;

/**
 * Shows what was just opened in its column: its heading, and as far as there is room its first field.
 *
 * @param heading stays where it was on the screen, `from`, whatever closed above it.
 * @param first the field that the hand goes on with.
 * @returns whether there is a column that scrolls.
 */
export function showOpened(heading: HTMLElement, first: HTMLElement | null, from: number | null = null): boolean {
  const column = heading.closest<HTMLElement>("[data-column]");
  // Where the whole page scrolls, the browser itself keeps what is looked at where it is.
  if (!column || column.scrollHeight <= column.clientHeight || getComputedStyle(column).overflowY === "visible") return false;
  if (from !== null) column.scrollTop += heading.getBoundingClientRect().top - from;
  const box = column.getBoundingClientRect();
  const by = toShow(box.top, box.bottom, heading.getBoundingClientRect().top, (first ?? heading).getBoundingClientRect().bottom + RIM);
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  if (by !== 0) column.scrollBy({ top: by, behavior: still ? "instant" : "smooth" });
  return true;
}

/** By how much a column scrolls so that all from a heading's top to a field's bottom is seen, the heading first. */
export function toShow(top: number, bottom: number, heading: number, field: number): number {
  if (heading < top) return heading - top;
  return Math.max(0, Math.min(field - bottom, heading - top));
}
