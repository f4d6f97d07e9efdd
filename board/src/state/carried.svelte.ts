/** The row of the step list that a hand carries, and where it would land. */
class Carried {
  from = $state<number | null>(null);
  to = $state(0);

  /** Where a line shows the landing: before which row, of all rows as they lie. */
  get line(): number | null {
    if (this.from === null || this.from === this.to) return null;
    return this.to > this.from ? this.to + 1 : this.to;
  }
}

export const carried = new Carried();
