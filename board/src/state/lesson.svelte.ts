import type { Outcome, Pattern, Piece, Point } from "../wire/types.ts";
import { board } from "./board.svelte.ts";
import { changes, type Change } from "./change.ts";
import { together } from "./together.ts";

/** The garment after one step; the first stage is before any. */
export interface Stage {
  outcome: Outcome | null;
  pieces: Piece[];
  before: Piece[];
  changes: Change[];
}

const PAUSE = 3500;

/** A design told step by step. It is fetched once for a version of the design, and then turned without waiting. */
class Lesson {
  stages = $state.raw<Stage[]>([]);
  at = $state(0);
  playing = $state(false);
  /** How many of how many steps are drawn. */
  drawn = $state(0);
  of = $state(0);
  failed = $state(false);
  #of = "";
  #timer: ReturnType<typeof setTimeout> | undefined;

  get stage(): Stage | undefined {
    return this.stages[this.at];
  }

  /** Draw every stage of the design that is open, unless it is done already. */
  async prepare(pattern: Pattern): Promise<void> {
    const name = `${pattern.design.ref}/${pattern.wearer}/${pattern.version}`;
    if (name === this.#of && !this.failed) return;
    const same = this.#of.startsWith(`${pattern.design.ref}/`);
    this.#of = name;
    this.stop();
    this.failed = false;
    this.drawn = 0;
    if (!same) this.at = 0;
    const taught = pattern.outcomes.filter((outcome) => outcome.state !== "off");
    this.of = taught.length + 1;
    const found: Pattern[] = [];
    for (const [k, outcome] of [taught[0], ...taught].entries()) {
      const shown = outcome ? await board.upto(outcome.step, k === 0) : pattern;
      if (this.#of !== name) return;
      if (!shown) {
        this.failed = true;
        return;
      }
      found.push(shown);
      this.drawn = found.length;
    }
    this.stages = staged(found, [null, ...taught]);
    this.at = Math.min(this.at, this.stages.length - 1);
  }

  turn(to: number): void {
    this.at = Math.min(Math.max(0, to), this.stages.length - 1);
  }

  play(): void {
    if (this.at === this.stages.length - 1) this.at = 0;
    this.playing = true;
    this.#wait();
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.playing = false;
  }

  #wait(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.turn(this.at + 1);
      if (this.at === this.stages.length - 1) this.stop();
      else this.#wait();
    }, PAUSE);
  }
}

function staged(patterns: readonly Pattern[], outcomes: readonly (Outcome | null)[]): Stage[] {
  const outer = patterns.map((pattern) => pattern.pieces.filter((piece) => piece.layer === "outer"));
  const places = together(outer);
  const put = (piece: Piece): Piece => ({ ...piece, place: places.get(piece.id) ?? ([0, 0] as Point) });
  const laid = outer.map((pieces) => pieces.map(put));
  return laid.map((pieces, k) => {
    const before = laid[k - 1] ?? pieces;
    return { outcome: outcomes[k] ?? null, pieces, before, changes: changes(before, pieces) };
  });
}

export const lesson = new Lesson();
