import type { Design } from "../wire/types.ts";
import { words } from "../words.ts";
import { base } from "./base.ts";
import { board } from "./board.svelte.ts";
import { inTurn } from "./in-turn.ts";

/** Whatever changes the open design by fields and buttons: one order is on its way at a time. */
export const turn = inTurn();

/** A change of the design as it is once those before it are saved. Null when it was done, else why not. */
export const changed = (make: (design: Design) => Design, what: string): Promise<string | null> =>
  turn(async () => {
    const now = base();
    return now ? board.change(make(now), what) : words.unreachable;
  });

/** What is held and not saved goes back at once; the rest when it is its turn. */
export function moveBack(): void {
  if (board.before) void board.undo();
  else void turn(() => board.undo());
}

export function moveForth(): void {
  void turn(() => board.redo());
}
