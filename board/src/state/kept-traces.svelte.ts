import type { Trace } from "../wire/trace.ts";
import { inTurn } from "./in-turn.ts";
import * as shelf from "./shelf.ts";

/** What was traced last and could not be saved, with the version that it was traced on. */
export interface Left {
  document: Trace;
  what: string;
  based: number;
}

const NAME = "left-trace/";

/** Kept in this browser until the workroom has it. A browser that keeps nothing is no fault. */
class KeptTraces {
  /** References of the blocks of which something is kept. */
  refs = $state.raw<ReadonlySet<string>>(new Set());
  readonly #turn = inTurn();

  keep(ref: string, left: Left): Promise<void> {
    return this.#do(async () => {
      await shelf.keep(NAME + ref, left);
      this.refs = new Set([...this.refs, ref]);
    });
  }

  drop(ref: string): Promise<void> {
    return this.#do(async () => {
      await shelf.drop(NAME + ref);
      this.refs = new Set([...this.refs].filter((other) => other !== ref));
    });
  }

  async of(ref: string): Promise<Left | null> {
    let found: Left | null = null;
    await this.#do(async () => {
      found = (await shelf.kept<Left>(NAME + ref)) ?? null;
    });
    return found;
  }

  look(): Promise<void> {
    return this.#do(async () => {
      const names = await shelf.names();
      this.refs = new Set(names.filter((name) => name.startsWith(NAME)).map((name) => name.slice(NAME.length)));
    });
  }

  #do(work: () => Promise<void>): Promise<void> {
    return this.#turn(work).catch(() => undefined);
  }
}

export const keptTraces = new KeptTraces();
