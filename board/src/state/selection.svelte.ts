import type { Layer, Lead } from "../wire/types.ts";

/** What is chosen and what the hand is over, the same in every view. */
class Selection {
  piece = $state<string | null>(null);
  edge = $state<string | null>(null);
  step = $state<string | null>(null);
  overPiece = $state<string | null>(null);
  overEdge = $state<string | null>(null);
  /** A place on a piece, mm, that the hand is over in some view: the other views light it up. */
  overPlace = $state.raw<{ piece: string; at: [number, number] } | null>(null);
  /** The place on a piece, mm, that was last pressed in some view. */
  pressed = $state.raw<{ piece: string; at: [number, number] } | null>(null);
  /** Index of the finding that is pointed at. */
  finding = $state<number | null>(null);
  /** Counts how often somebody has asked where a finding is: the body turns to it. */
  sought = $state(0);

  /** The field that the hand has asked to be led to, until it is there. */
  lead = $state.raw<Lead | null>(null);

  /** Layers that the maker has just asked for: where pieces are drawn they are shown. */
  fresh = $state.raw<Layer[]>([]);

  clear(): void {
    this.fresh = [];
    this.lead = null;
    this.pressed = null;
    this.piece = this.edge = this.step = this.overPiece = this.overEdge = this.overPlace = this.finding = null;
  }
}

export const selection = new Selection();
