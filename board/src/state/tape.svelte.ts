import type { Piece, Point } from "../wire/types.ts";
import { board } from "./board.svelte.ts";
import { camera } from "./camera.svelte.ts";
import { caught, edgeOf, type Place, type Span } from "./gauge.ts";

export type Measured = { kind: "points"; places: Place[] } | { kind: "edges"; spans: Span[] };

const REACH = 12; // pixels

/** What is measured on the flat pieces: from place to place, or along edges added up. The last one is still open. */
class Tape {
  mode = $state<Measured["kind"]>("points");
  taken = $state.raw<Measured[]>([]);
  open = $state(false);
  aimed = $state.raw<Place | null>(null);

  /** Pieces that can be measured: those that are shown. */
  pieces = $state.raw<Piece[]>([]);

  choose(mode: Measured["kind"]): void {
    this.mode = mode;
    this.end();
  }

  aim(at: Point): void {
    this.aimed = this.mode === "points" ? caught(camera.toPaper(at), REACH / camera.scale, this.pieces) : null;
  }

  /** One more place, or one more edge; an edge that is in already is taken out. */
  take(at: Point, edge: Span | null): void {
    if (this.mode === "points") this.#put({ kind: "points", places: [...this.#places(), caught(camera.toPaper(at), REACH / camera.scale, this.pieces)] });
    else if (edge) this.takeEdge(edge);
  }

  takeEdge(edge: Span): void {
    const spans = this.#spans();
    const same = (span: Span) => span.piece === edge.piece && span.edge === edge.edge;
    this.#put({ kind: "edges", spans: spans.some(same) ? spans.filter((span) => !same(span)) : [...spans, edge] });
  }

  /** All edges of the side of a seam that the last edge belongs to. */
  takeSeam(): void {
    const spans = this.#spans();
    const last = spans.at(-1);
    const side = last && seamSide(last);
    if (!side) return;
    const more = side.filter((span) => !spans.some((own) => own.piece === span.piece && own.edge === span.edge));
    this.#put({ kind: "edges", spans: [...spans, ...more] });
  }

  end(): void {
    this.open = false;
    this.aimed = null;
  }

  remove(k: number): void {
    if (k === this.taken.length - 1) this.open = false;
    this.taken = this.taken.filter((_, other) => other !== k);
  }

  clear(): void {
    this.taken = [];
    this.end();
  }

  /** Where a place lies on the paper; edges are asked for their own. */
  onPaper = (place: Place): Point => {
    const [dx, dy] = board.pieces.find((piece) => piece.id === place.piece)?.place ?? [0, 0];
    return [place.at[0] + dx, place.at[1] + dy];
  };

  #current = (): Measured | undefined => (this.open ? this.taken.at(-1) : undefined);
  #places(): Place[] {
    const current = this.#current();
    return current?.kind === "points" ? current.places : [];
  }
  #spans(): Span[] {
    const current = this.#current();
    return current?.kind === "edges" ? current.spans.filter((span) => edgeOf(span, board.pieces)) : [];
  }

  #put(measured: Measured): void {
    const before = this.open ? this.taken.slice(0, -1) : this.taken;
    const empty = measured.kind === "edges" && measured.spans.length === 0;
    this.taken = empty ? before : [...before, measured];
    this.open = !empty;
  }
}

/** The side of a seam that an edge is sewn on, from the seams that the server told. */
export function seamSide(span: Span): Span[] | null {
  const has = (spans: Span[]) => spans.some((own) => own.piece === span.piece && own.edge === span.edge);
  for (const seam of board.pattern?.seams ?? []) {
    if (has(seam.a)) return seam.a;
    if (has(seam.b)) return seam.b;
  }
  return null;
}

export const tape = new Tape();
