import { beginAnew, handLay, moveByHand, takeBack, type HandLay, type LayMove, type Print } from "../wire/paper.ts";
import { Refusal } from "../wire/ask.ts";
import { lengthOf, moveOf, STILL, withMove, type Move } from "./hand-lay.ts";
import { inTurn } from "./in-turn.ts";
import { sentence } from "./workroom.svelte.ts";

const PAUSE = 250; // ms of rest before moves are sent
const AGAIN = 2000; // ms until moves are sent again that nobody answered
const UNREACHED = 0; // status of a request that had no answer

/** The lay of one cloth that a hand moves pieces in: what the workroom told last, and what was moved since. */
export class LaidByHand {
  told = $state.raw<HandLay | null>(null);
  moves = $state.raw<Move[]>([]);
  fault = $state("");
  /** Whether a piece is held: what others do is looked at once it is let go. */
  held = false;
  readonly #print: Print;
  readonly #number: number;
  readonly #turn = inTurn();
  #waiting: LayMove[] = []; // single moves that are not sent yet
  #sending = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** `number` is the lay's, as its picture has it. */
  constructor(print: Print, number: number) {
    [this.#print, this.#number] = [print, number];
  }

  get length(): number {
    return this.told ? lengthOf(this.told, this.moves) : 0;
  }

  get moved(): boolean {
    return this.moves.some((move) => move.turned || move.x || move.y);
  }

  /** Whether nothing of this page is on its way. */
  get still(): boolean {
    return !this.held && this.#waiting.length === 0 && this.#sending === 0;
  }

  get canUndo(): boolean {
    return this.#waiting.length > 0 || (this.told?.can_undo ?? false);
  }

  async load(): Promise<void> {
    await this.#ask(() => handLay(this.#print, this.#number));
  }

  /** Show a piece elsewhere; it counts once it is `settled`. */
  show(index: number, to: Move): void {
    this.moves = this.moves.map((move, k) => (k === index ? to : move));
  }

  /** The piece stays where it is shown: one move, with what the same piece did just before. */
  settled(index: number): void {
    const { piece, number } = this.told!.pieces[index]!;
    this.#waiting = withMove(this.#waiting, { piece, number, ...this.moves[index]! });
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.flush(), PAUSE);
  }

  /** Send what waits, at once. */
  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    if (this.#waiting.length === 0) return;
    const moves = this.#waiting;
    this.#waiting = [];
    const answered = await this.#ask(() => moveByHand(this.#print, this.#number, moves, this.told!.revision));
    if (answered) return;
    this.#waiting = [...moves, ...this.#waiting];
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.flush(), AGAIN);
  }

  undo(): Promise<void> {
    return this.#afterMoves(() => takeBack(this.#print, this.#number, "undo"));
  }

  redo(): Promise<void> {
    return this.#afterMoves(() => takeBack(this.#print, this.#number, "redo"));
  }

  beginAnew(): Promise<void> {
    return this.#afterMoves(() => beginAnew(this.#print, this.#number));
  }

  /** What is done to the lay with every move that is shown: not before those have been sent. */
  async #afterMoves(work: () => Promise<HandLay>): Promise<void> {
    await this.flush();
    if (this.#waiting.length === 0) await this.#ask(work);
  }

  /** One request after the other: each is based on the answer before. Where it is refused, pieces lie as they are kept.
   * False: the workroom could not be reached. */
  async #ask(work: () => Promise<HandLay>): Promise<boolean> {
    this.#sending += 1;
    try {
      await this.#turn(async () => this.#take(await work()));
      this.fault = "";
      return true;
    } catch (error) {
      this.fault = sentence(error);
      if (!(error instanceof Refusal) || error.status === UNREACHED) return false;
      await this.#turn(async () => this.#take(await handLay(this.#print, this.#number))).catch(() => undefined);
      return true;
    } finally {
      this.#sending -= 1;
    }
  }

  /** Pieces lie as the answer has them, unless they were moved since it was asked for. */
  #take(told: HandLay): void {
    this.told = told;
    if (!this.held && this.#waiting.length === 0) this.moves = told.pieces.map((piece) => moveOf(piece, told.moves) ?? STILL);
  }
}
