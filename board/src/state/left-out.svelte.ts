import type { Step } from "../wire/types.ts";

export interface LeftOut {
  step: Step;
  label: string;
  /** Where it stood. */
  at: number;
}

/** Steps that are left out for now. The design has no place for them: the page keeps them until it is closed. */
class LeftOutSteps {
  #all = $state.raw<Record<string, LeftOut[]>>({});

  of(design: string): LeftOut[] {
    return this.#all[design] ?? [];
  }

  add(design: string, left: LeftOut): void {
    this.#all = { ...this.#all, [design]: [...this.of(design), left] };
  }

  take(design: string, left: LeftOut): void {
    this.#all = { ...this.#all, [design]: this.of(design).filter((other) => other.step.uid !== left.step.uid) };
  }
}

export const leftOut = new LeftOutSteps();
