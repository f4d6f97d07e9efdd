import { words } from "../words.ts";
import type { Point } from "../wire/types.ts";
import { board } from "./board.svelte.ts";
import { strokesOf } from "./strokes.ts";

export type EdgeKind = "top-edge" | "hem";

/** A line drawn by hand: as it is drawn, and while the edge that follows it is shown and not yet kept. */
class Ink {
  line = $state.raw<Point[]>([]);
  kind = $state<EdgeKind>("top-edge");
  doing = $state<"nothing" | "fitting" | "shown" | "refused">("nothing");
  fault = $state("");

  /** The line so far. What was shown before is forgotten. */
  draw(line: Point[]): void {
    if (this.doing !== "nothing") this.rubOut();
    this.line = line;
  }

  /** The whole line: above the waist it is a top edge, below it a hem, until the maker says otherwise. */
  async finish(line: Point[]): Promise<void> {
    this.line = line;
    const middle = line.reduce((sum, [, y]) => sum + y, 0) / line.length;
    await this.fit(middle >= waist() ? "top-edge" : "hem");
  }

  async fit(kind: EdgeKind): Promise<void> {
    this.kind = kind;
    const strokes = strokesOf(this.line, board.before?.pieces ?? board.pieces);
    if (strokes.length === 0) return this.#refuse(words.draw.beside);
    this.doing = "fitting";
    this.fault = "";
    const line = this.line;
    const fault = await board.draw(kind, strokes);
    if (line !== this.line || this.kind !== kind) return;
    if (fault === null) this.doing = "shown";
    else this.#refuse(fault);
  }

  async keep(): Promise<void> {
    if (this.doing !== "shown") return;
    const fault = await board.drop();
    if (fault === null) return this.forget();
    board.forgetFault();
    this.#refuse(fault);
  }

  rubOut(): void {
    const asked = this.doing !== "nothing";
    this.forget();
    if (asked) void board.leave();
  }

  #refuse(fault: string): void {
    this.doing = "refused";
    this.fault = fault;
  }

  /** The line is gone; what the board shows is not asked. */
  forget(): void {
    this.line = [];
    this.doing = "nothing";
    this.fault = "";
  }
}

/** Height of the waist on the paper, where the panels lie, mm. */
function waist(): number {
  const panel = board.pieces.find((piece) => piece.layer === "outer" && piece.inside.some((inside) => inside.id === "waist"));
  const d = panel?.inside.find((inside) => inside.id === "waist")?.d;
  return (panel?.place[1] ?? 0) + Number(d?.match(/-?[\d.]+/g)?.[1] ?? 0);
}

export const ink = new Ink();
