import { apart } from "../tools/distance.ts";
import type { Measured, Trace } from "../wire/trace.ts";
import type { Point } from "../wire/types.ts";
import { words } from "../words.ts";
import * as outline from "./outline.ts";
import { onPencilLine } from "./pencil-line.ts";
import { pencilOf, reachOf } from "./picture-size.ts";
import { metOutline, roleOf, withCornerAt, withoutCornerAt, withoutPointAt, withPointIn } from "./reshaped.ts";
import { tracePicture } from "./trace-picture.svelte.ts";
import { tracing } from "./tracing.svelte.ts";

export type Mode = "look" | "scale" | "edges" | "shape" | "level" | "grain" | "marks";
export const MODES: Mode[] = ["look", "edges", "shape", "level", "grain", "marks"];
/** What a press marks: a notch of so many ticks, or a point inside a piece. */
export type Marking = "notch" | "notches" | "bust-point" | "point";
export const MARKINGS: Marking[] = ["notch", "notches", "bust-point", "point"];

/** Two presses nearer to one another than this, in pixels of the screen, are one place. */
const SAME = 5;
/** A press nearer to an edge than this, in pixels of the screen, is on it. */
const NEAR = 14;

/** What the hand is doing over the picture. Places are pixels of the picture. */
class TraceHand {
  mode = $state<Mode>("look");
  /** Places of a scale, level or grain line that is not done yet. */
  draft = $state.raw<Point[]>([]);
  /** Where a press would put a point; and the cross that keys move. */
  aim = $state.raw<Point | null>(null);
  cross = $state.raw<Point | null>(null);
  carried = $state.raw<{ from: Point; to: Point } | null>(null);
  level = $state("waist");
  marking = $state<Marking>("notch");
  /** The point of an outline that was pressed to be changed. */
  chosen = $state.raw<Point | null>(null);
  snap = $state(true);
  /** The known size that is pressed next: one length, or width and height. */
  size = $state.raw<{ kind: Measured["kind"]; mm: number[] }>({ kind: "length", mm: [] });
  lit = $state.raw<{ piece: string; edge: number } | null>(null);
  said = $state("");
  /** What is to be known of the press that was just done, beside what comes next. */
  note = $state("");
  /** Pixels of the screen to one of the picture. */
  scale = 1;

  take(mode: Mode): void {
    this.mode = mode;
    this.forget();
  }

  forget(): void {
    this.draft = [];
    this.aim = this.carried = this.chosen = null;
    this.said = this.note = "";
  }

  reset(): void {
    this.take("look");
    this.cross = this.lit = null;
  }

  /** What is traced, with a carried point where it is now. */
  get shown(): Trace | null {
    const trace = tracing.document;
    return trace && this.carried ? outline.moved(trace, this.carried.from, this.carried.to) : trace;
  }

  /** The place on the pencil line near by, where there is one. */
  settled(at: Point, free: boolean): Point {
    const trace = tracing.document;
    const found = trace && this.snap && !free && tracePicture.grey ? onPencilLine(tracePicture.grey, at, reachOf(trace.measured, this.scale), pencilOf(trace.measured)) : null;
    const [x, y] = found ?? at;
    return [round(x), round(y)];
  }

  /** Where a press at this place would put a point, in this mode. */
  target(at: Point, free: boolean): Point {
    return this.settled(at, free || this.mode === "scale" || this.mode === "look" || this.mode === "marks");
  }

  put(at: Point, on: Point | null, free: boolean): void {
    tracing.when(() => this.#put(at, on, free));
  }

  #put(at: Point, on: Point | null, free: boolean): void {
    const trace = tracing.document;
    if (!trace || this.mode === "look") return;
    this.said = this.note = "";
    if (this.mode === "edges") {
      const to = on ?? this.target(at, free);
      this.#edge(trace, to, on);
      if (!on && !free && this.#offLine(at)) this.note = words.trace.say.far;
    } else if (this.mode === "shape") this.#shape(trace, at, on, free);
    else if (this.mode === "marks") this.#mark(trace, at);
    // A level that ends near a traced point does not end at it.
    else this.#draft(trace, this.target(at, free));
  }

  /** The chosen point of an outline becomes a corner, or a corner a point. */
  turnCorner(): void {
    tracing.when(() => this.#turnCorner());
  }

  #turnCorner(): void {
    const [trace, at] = [tracing.document, this.chosen];
    if (!trace || !at) return;
    const turned = roleOf(trace, at) === "corner" ? withoutCornerAt(trace, at) : withCornerAt(trace, at);
    if (turned.pieces.every((piece, k) => piece.edges.length === trace.pieces[k]!.edges.length)) this.said = words.trace.say.twoEdges;
    else tracing.change(turned, words.trace.what.corner);
  }

  /** The chosen point is taken out of its edge. */
  dropChosen(): void {
    tracing.when(() => this.#dropChosen());
  }

  #dropChosen(): void {
    const [trace, at] = [tracing.document, this.chosen];
    if (!trace || !at || roleOf(trace, at) !== "point") return;
    this.chosen = null;
    tracing.change(withoutPointAt(trace, at), words.trace.what.dropPoint);
  }

  /** The edge or the level line ends at its last place. */
  end(): void {
    tracing.when(() => this.#end());
  }

  #end(): void {
    const trace = tracing.document;
    if (!trace) return;
    if (this.mode === "level" && this.draft.length > 1) this.#endLevel(trace, this.draft);
    if (this.mode === "edges") tracing.change(outline.withCorner(trace), words.trace.what.corner);
  }

  close(): void {
    tracing.when(() => tracing.document && tracing.change(outline.closed(tracing.document), words.trace.what.close));
  }

  back(): void {
    tracing.when(() => this.#back());
  }

  #back(): void {
    if (this.mode === "shape") this.dropChosen();
    else if (this.draft.length > 0) this.draft = this.draft.slice(0, -1);
    else if (tracing.document) tracing.change(outline.withoutLast(tracing.document), words.trace.what.back);
  }

  /** Whether a press met no pencil line though it looked for one. */
  #offLine(at: Point): boolean {
    const trace = tracing.document;
    return Boolean(trace && this.snap && tracePicture.grey && onPencilLine(tracePicture.grey, at, reachOf(trace.measured, this.scale), pencilOf(trace.measured)) === null);
  }

  carry(from: Point, at: Point, free: boolean): void {
    this.carried = { from, to: this.settled(at, free) };
  }

  letGo(): void {
    const carried = this.carried;
    this.carried = null;
    if (!carried) return;
    tracing.when(() => tracing.document && tracing.change(outline.moved(tracing.document, carried.from, carried.to), words.trace.what.move));
  }

  #edge(trace: Trace, to: Point, on: Point | null): void {
    const open = outline.openPiece(trace);
    const near = (at: Point): boolean => apart(to, at) * this.scale <= SAME;
    if (open && near(outline.firstPoint(open)) && outline.canClose(trace)) return this.close();
    if (open && near(outline.lastPoint(open))) return tracing.change(outline.withCorner(trace), words.trace.what.corner);
    if (open && on && open.edges.some((edge) => edge.points.some((at) => apart(at, on) === 0))) return;
    tracing.change(outline.withPoint(trace, to), words.trace.what.point);
  }

  /** A press on a point chooses it, one on an edge puts a point there. */
  #shape(trace: Trace, at: Point, on: Point | null, free: boolean): void {
    this.chosen = null;
    if (on && roleOf(trace, on)) {
      this.chosen = on;
      return;
    }
    const met = metOutline(trace, at, NEAR / this.scale);
    if (!met) {
      this.said = words.trace.say.noEdge;
      return;
    }
    const to = this.settled(met.at, free);
    tracing.change(withPointIn(trace, met, to), words.trace.what.pointIn);
    this.chosen = to;
  }

  #mark(trace: Trace, at: Point): void {
    if (this.marking === "notch" || this.marking === "notches") {
      const met = metOutline(trace, at, NEAR / this.scale);
      if (met) tracing.change(outline.withNotch(trace, met.piece, rounded(met.at), this.marking === "notch" ? 1 : 2), words.trace.what.notch);
      else this.said = words.trace.say.noEdge;
      return;
    }
    const piece = outline.pieceAt(trace, at);
    if (piece) tracing.change(outline.withMark(trace, piece.id, this.marking === "point" ? freeMark(piece.marks) : this.marking, rounded(at)), words.trace.what.mark);
    else this.said = words.trace.say.outside;
  }

  #draft(trace: Trace, to: Point): void {
    const last = this.draft.at(-1);
    const again = last !== undefined && apart(last, to) * this.scale <= SAME;
    if (again && this.mode === "level" && this.draft.length > 1) return this.#endLevel(trace, this.draft);
    if (again) return;
    this.draft = [...this.draft, to];
    if (this.mode === "scale") this.#measure(trace);
    if (this.mode === "grain" && this.draft.length === 2) this.#endGrain(trace, this.draft as [Point, Point]);
  }

  #measure(trace: Trace): void {
    const { kind, mm } = this.size;
    if (this.draft.length < (kind === "length" ? 2 : 4)) return;
    const measured: Measured =
      kind === "length" ? { kind, ends: this.draft as [Point, Point], mm: mm[0]! } : { kind, corners: this.draft as [Point, Point, Point, Point], width_mm: mm[0]!, height_mm: mm[1]! };
    this.take("edges");
    tracing.change({ ...trace, measured }, words.trace.what.scale);
  }

  #endLevel(trace: Trace, points: Point[]): void {
    const piece = outline.pieceAround(trace, points);
    this.draft = [];
    if (piece) tracing.change(outline.withLevel(trace, piece.id, this.level, points), words.trace.what.level);
    else this.said = words.trace.say.outside;
  }

  #endGrain(trace: Trace, grain: [Point, Point]): void {
    const piece = outline.pieceAround(trace, grain);
    this.draft = [];
    if (piece) tracing.change(outline.changedPiece(trace, piece.id, { grain }), words.trace.what.grain);
    else this.said = words.trace.say.outside;
  }
}

const rounded = ([x, y]: Point): Point => [round(x), round(y)];

function freeMark(marks: readonly { id: string }[]): string {
  let k = 1;
  while (marks.some((mark) => mark.id === `point-${k}`)) k++;
  return `point-${k}`;
}

/** To a hundredth of a pixel. */
const round = (pixels: number): number => Math.round(pixels * 100) / 100;

export const traceHand = new TraceHand();
