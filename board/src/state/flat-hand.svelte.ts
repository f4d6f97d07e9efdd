import type { Desk, State, Touch, Under } from "../tools/tool.ts";
import { touchOf } from "../tools/paper-hand.ts";
import { tools } from "../tools/tools.ts";
import type { Handle, Piece, Point } from "../wire/types.ts";
import { board } from "./board.svelte.ts";
import { camera } from "./camera.svelte.ts";
import { keyOf } from "./handle-key.ts";
import { ink } from "./ink.svelte.ts";
import type { PictureGrip } from "./laid-picture.ts";
import { reference } from "./reference.svelte.ts";
import { selection } from "./selection.svelte.ts";
import { tape } from "./tape.svelte.ts";

/** What lies on the flat paper for it to take hold of. */
interface Laid {
  pieces: Map<string, Piece>;
  handles: readonly Handle[];
}

/** The hand over the flat pieces: which tool it has, what it does with it, what it holds. */
export class FlatHand {
  tool = $state.raw(tools[0]!);
  /** Name of what the tool is doing. */
  doing = $state("idle");
  /** The handle that is held, by hand or by keys, by its key. */
  held = $state<string | null>(null);
  gripped = $state<PictureGrip | null>(null);
  drawing = $state<SVGSVGElement>();
  /** Whether it has moved the paper, which then stays where it was put. */
  moved = false;
  #phase: State = tools[0]!.begin();
  readonly #laid: () => Laid;

  constructor(laid: () => Laid) {
    this.#laid = laid;
  }

  readonly desk: Desk = {
    onPiece: (piece, at) => {
      const [x, y] = camera.toPaper(at);
      const place = this.#laid().pieces.get(piece)?.place ?? [0, 0];
      return [x - place[0], y - place[1]];
    },
    pan: (dx, dy) => {
      this.moved = true;
      camera.pan(dx, dy);
    },
    zoom: (factor, at) => {
      this.moved = true;
      camera.zoom(factor, at);
    },
    choose: (under, at) => this.#choose(under, at),
    drag: (handle, to, free) => {
      this.held = keyOf(handle);
      board.drag({ step: handle.step, handle: handle.name, piece: handle.piece, to, ...(free ? { free } : {}) });
    },
    drop: () => {
      this.held = null;
      void board.drop();
    },
    leave: () => {
      this.held = null;
      void board.leave();
    },
    onPaper: (at) => camera.toPaper(at),
    ink: (line) => ink.draw(line),
    inked: (line) => void ink.finish(line),
    unink: () => ink.rubOut(),
    aim: (touch) => tape.aim(touch.at),
    measure: ({ at, under }) => tape.take(at, under.on === "edge" ? under : null),
    measured: () => tape.end(),
    onPicture: (at) => reference.covers(camera.toPaper(at)),
    hold: (grip, to, free) => {
      this.gripped = grip;
      reference.hold(grip, to, free);
    },
    shift: (dx, dy) => reference.lay({ x: reference.lies.x + dx, y: reference.lies.y + dy }),
    laid: () => {
      this.gripped = null;
      void reference.keep();
    },
  };

  get idle(): boolean {
    return this.#phase.name === "idle";
  }

  /** Take another tool; what the one in the hand was doing is left. */
  take(id: string): void {
    selection.overPiece = selection.overEdge = null;
    this.cancel();
    this.tool = tools.find((known) => known.id === id) ?? tools[0]!;
    this.#become(this.tool.begin());
  }

  cancel(): void {
    this.#become(this.#phase.cancel(this.desk));
  }

  press(event: PointerEvent): void {
    this.drawing?.setPointerCapture(event.pointerId);
    this.#become(this.#phase.press(this.#touch(event), this.desk));
  }

  move(event: PointerEvent): void {
    if (this.doing === "dragging" && event.type === "pointermove" && "onpointerrawupdate" in window) return;
    const now = this.#touch(event);
    if (this.idle && this.tool.id !== "draw") {
      selection.overPiece = now.under.on === "piece" || now.under.on === "edge" ? now.under.piece : null;
      selection.overEdge = now.under.on === "edge" ? now.under.edge : null;
    }
    // A pen tells more places than the screen shows; a line is drawn through all of them.
    const passed = this.tool.fine && this.doing === "drawing" ? event.getCoalescedEvents() : [];
    for (const each of passed) this.#become(this.#phase.move(this.#touch(each), this.desk));
    this.#become(this.#phase.move(now, this.desk));
  }

  lift(event: PointerEvent): void {
    this.#become(this.#phase.lift(this.#touch(event), this.desk));
  }

  /** The handle drawn at an element, where there is one. */
  handleAt(target: EventTarget | null): Handle | undefined {
    const key = target instanceof Element ? target.closest("[data-handle]")?.getAttribute("data-handle") : null;
    return key ? this.#laid().handles.find((known) => keyOf(known) === key) : undefined;
  }

  /** Where keys take hold of a handle. */
  grip(key: string): SVGGElement | null | undefined {
    return this.drawing?.querySelector<SVGGElement>(`[data-handle="${CSS.escape(key)}"] .grip`);
  }

  #become(next: State): void {
    // However the paper was moved meanwhile, the tool in the hand stays the same.
    this.#phase = next.name === "idle" && this.#phase.name !== "idle" ? this.tool.begin() : next;
    this.doing = this.#phase.name;
  }

  #touch(event: PointerEvent): Touch {
    return touchOf(event, this.drawing!, () => this.#under(event.target));
  }

  #under(target: EventTarget | null): Under {
    if (!(target instanceof Element)) return { on: "paper" };
    const handle = this.handleAt(target);
    if (handle) return { on: "handle", handle };
    const grip = target.closest("[data-picture-grip]");
    if (grip) return this.#gripUnder(grip.getAttribute("data-picture-grip") as PictureGrip, grip);
    const piece = target.closest("[data-piece]")?.getAttribute("data-piece");
    if (!piece) return { on: "paper" };
    const edge = target.getAttribute("data-edge");
    return edge ? { on: "edge", piece, edge } : { on: "piece", piece };
  }

  #gripUnder(grip: PictureGrip, drawn: Element): Under {
    const { left, top } = this.drawing!.getBoundingClientRect();
    const box = drawn.getBoundingClientRect();
    return { on: "picture-grip", grip, at: camera.toPaper([(box.left + box.right) / 2 - left, (box.top + box.bottom) / 2 - top]) };
  }

  #choose(under: Under, at: Point): void {
    if (under.on === "handle") {
      selection.step = under.handle.step;
      this.grip(keyOf(under.handle))?.focus();
    } else {
      const piece = under.on === "piece" || under.on === "edge" ? under.piece : null;
      selection.edge = under.on === "edge" ? under.edge : null;
      selection.piece = under.on === "piece" && piece === selection.piece ? null : piece;
      selection.pressed = piece === null ? null : { piece, at: this.desk.onPiece(piece, at) };
    }
  }
}
