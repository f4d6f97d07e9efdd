import { tick } from "svelte";
import { BoardSocket, type Answer, type Drag } from "../wire/socket.ts";
import type { Design, HeldLine, Outcome, Pattern, Piece, Point, ToldPattern } from "../wire/types.ts";
import { words } from "../words.ts";
import { keyOf } from "./handle-key.ts";
import type { Unit } from "./length.ts";

/** The design that is open: its pattern as the server last told it, and what the maker asks of it. */
class Board {
  pattern = $state.raw<Pattern | null>(null);
  /** The pieces to draw: while something is dragged, those that stay are kept and all keep their places. */
  pieces = $state.raw<Piece[]>([]);
  /** The line in the hand, which is there before the pieces are cut along it. */
  line = $state.raw<HeldLine | null>(null);
  /** The pattern as saved, while something is dragged. */
  before = $state.raw<Pattern | null>(null);
  /** Whether the findings are those of an earlier state: while the hand is on its way nothing is checked. */
  unchecked = $state(false);
  fault = $state("");
  online = $state(true);
  /** How much was asked for and not yet answered; drags apart. */
  waiting = $state(0);
  /** How often a lay of the garment was found or moved by hand, here or elsewhere. */
  laid = $state(0);
  #said = $state("");
  #open: { design: string; wearer: string; units: "cm" | "inches" } | null = null;
  #dragging = false;
  /** Somebody else has saved while something was held here. */
  #missed = false;
  #socket: BoardSocket | null = null;

  get dragging(): boolean {
    return this.pattern?.dragging ?? false;
  }

  /** What was done, for readers of screens: said again where the same was said before. */
  get said(): string {
    return this.#said;
  }

  set said(text: string) {
    this.#said = "";
    void tick().then(() => (this.#said = text));
  }

  /** Open a design for a wearer, now or as soon as there is a connection. */
  open(design: string, wearer: string, unit: Unit): void {
    const same = this.#open?.design === design;
    this.#open = { design, wearer, units: unit === "in" ? "inches" : "cm" };
    if (!same) this.#show(null);
    if (this.#socket) this.#askOpen();
    else this.#connect();
  }

  close(): void {
    this.#socket?.close();
    this.#socket = null;
    this.#open = null;
    this.#show(null);
  }

  drag(drag: Drag): void {
    this.#dragging = true;
    this.#socket?.drag(drag);
  }

  /** Let go. What the hand did last counts, even where it was not yet told. As all that changes: null, or why not. */
  async drop(): Promise<string | null> {
    this.#socket?.endDrag(true);
    this.#dragging = false;
    const fault = await this.#ask("drop");
    if (fault !== null && this.before) this.#show(this.before);
    this.line = null;
    this.#catchUp();
    return fault;
  }

  async leave(): Promise<string | null> {
    this.#release();
    const fault = await this.#ask("leave");
    this.line = null;
    this.#catchUp();
    return fault;
  }

  change(document: Design, what: string): Promise<string | null> {
    this.#release();
    return this.#ask("change", { document, what });
  }

  /** Do what a finding offers. */
  remedy(code: string, subject: string): Promise<string | null> {
    this.#release();
    return this.#ask("remedy", { code, subject });
  }

  /** What is held and not yet saved is what goes back first. */
  undo(): Promise<string | null> {
    return this.before ? this.leave() : this.#ask("undo");
  }

  redo(): Promise<string | null> {
    this.#release();
    return this.#ask("redo");
  }

  /** The pattern after the steps up to one, or before it, to look at: what is open stays as it is. */
  async upto(step: string, before = false): Promise<Pattern | null> {
    const answer = (await this.#socket?.ask("upto", { step, ...(before ? { before } : {}) })) ?? null;
    return answer?.say === "pattern" ? whole(answer, this.pattern) : null;
  }

  /** Show the edge that follows a line drawn by hand, until it is dropped or left; why not, where it cannot be. */
  async draw(kind: "top-edge" | "hem", strokes: { piece: string; points: [number, number][] }[]): Promise<string | null> {
    this.#dragging = true;
    const fault = await this.#ask("draw", { kind, strokes });
    if (fault === null) {
      this.#socket?.rest();
      return null;
    }
    this.forgetFault();
    this.#dragging = false;
    return fault;
  }

  forgetFault(): void {
    this.fault = "";
  }

  /** Nothing is held any more, whatever the hand still does. */
  #release(): void {
    this.#socket?.endDrag(false);
    this.#dragging = false;
  }

  /** See what others did meanwhile. */
  #catchUp(): void {
    if (!this.#missed || this.#dragging) return;
    this.#missed = false;
    const fault = this.fault;
    void this.#ask("open", { ...this.#open }).then((refused) => {
      if (refused !== null) return;
      this.said = words.said.elsewhere;
      this.fault = fault; // why what was done here did not count
    });
  }

  #connect(): void {
    this.#socket = new BoardSocket({
      connected: () => {
        this.online = true;
        this.#askOpen();
      },
      lost: () => {
        this.online = false;
        this.#dragging = false;
        if (this.before) this.#show(this.before);
      },
      changed: (kind) => {
        if (kind === "group") return;
        if (kind === "lay") {
          this.laid += 1;
          return;
        }
        this.#missed = true;
        this.#catchUp();
      },
      dragged: (answer) => {
        if (this.#dragging) this.#take(answer);
      },
      led: (line) => {
        if (this.#dragging) this.line = line;
      },
    });
    this.#socket.connect();
  }

  #askOpen(): void {
    if (!this.#open) return;
    const { wearer } = this.#open;
    void this.#ask("open", { ...this.#open }).then((fault) => {
      // What is on the page must not pass for what was asked for.
      if (fault !== null && this.pattern && this.pattern.wearer !== wearer) this.#show(null);
    });
  }

  /** Null when it was done; otherwise why not, in a sentence, which the page shows until it is forgotten. */
  async #ask(what: string, more: Record<string, unknown> = {}): Promise<string | null> {
    const asked = this.#open;
    this.waiting += 1;
    const answer = (await this.#socket?.ask(what, more)) ?? null;
    this.waiting -= 1;
    if (asked?.design !== this.#open?.design) return words.unreachable;
    if (answer) return this.#take(answer);
    // While the connection is away the page says so already.
    if (this.online) this.fault = words.unreachable;
    return words.unreachable;
  }

  #take(answer: Answer): string | null {
    if (answer.say === "refused") return (this.fault = answer.message || words.refusedSilently);
    this.forgetFault();
    this.#show(answer);
    return null;
  }

  #show(told: ToldPattern | null): void {
    const pattern = told && whole(told, this.pattern);
    this.unchecked = told?.findings === null;
    if (pattern?.dragging) {
      this.before ??= this.pattern;
      const known = new Map(this.before?.pieces.map((piece) => [piece.id, piece]));
      const now = pattern.pieces.map((piece) => ({ ...piece, place: known.get(piece.id)?.place ?? piece.place }));
      const told = new Set(now.map((piece) => piece.id));
      const kept = this.pieces.filter((piece) => piece.layer !== "outer" && !told.has(piece.id));
      this.pieces = this.#unchanged([...now, ...kept]);
    } else {
      this.before = this.line = null;
      this.pieces = this.#unchanged(pattern?.pieces ?? []);
    }
    this.pattern = pattern;
  }

  /** A piece that is as it was stays the same object, and nothing of it is drawn again. */
  #unchanged(pieces: Piece[]): Piece[] {
    const drawn = new Map(this.pieces.map((piece) => [piece.id, piece]));
    return pieces.map((piece) => {
      const was = drawn.get(piece.id);
      return was && JSON.stringify(was) === JSON.stringify(piece) ? was : piece;
    });
  }
}

/** What was left out of a pattern while something was dragged is as it was before. */
function whole(told: ToldPattern, last: Pattern | null): Pattern {
  const ways = new Map(last?.handles.map((handle) => [keyOf(handle), handle.way]));
  const handles = told.handles.map((handle) => ({ ...handle, way: handle.way ?? ways.get(keyOf(handle)) ?? [handle.at, handle.at] }));
  const texts = new Map(last?.pieces.map((piece) => [piece.id, piece.text_at]));
  const pieces = told.pieces.map((piece) => ({ ...piece, text_at: piece.text_at ?? texts.get(piece.id) ?? middle(piece.box) }));
  const lasting = { seam_places: told.seam_places ?? last?.seam_places ?? [], line_names: told.line_names ?? last?.line_names ?? {}, findings: told.findings ?? last?.findings ?? [] };
  return { ...told, pieces, handles, outcomes: outcomesOf(told, last), ...lasting };
}

/** What is usual is told when the hand is at rest; until then it is as it was. */
function outcomesOf(told: ToldPattern, last: Pattern | null): Outcome[] {
  if (!told.dragging || told.findings) return told.outcomes;
  return told.outcomes.map((outcome, k) => {
    const usual = last?.outcomes[k]?.step === outcome.step ? last.outcomes[k]?.usual : undefined;
    return usual ? { ...outcome, usual } : outcome;
  });
}

function middle([left, bottom, right, top]: Piece["box"]): Point {
  return [(left + right) / 2, (bottom + top) / 2];
}

export const board = new Board();
