import * as wire from "../wire/fitting.ts";
import type { Step } from "../wire/types.ts";
import { words } from "../words.ts";
import type { Unit } from "./length.ts";
import { named } from "./noted.ts";
import { sentence } from "./workroom.svelte.ts";

/** The fitting notes of the wearer that the open design is for. */
class FittingBook {
  told = $state.raw<wire.Told | null>(null);
  fault = $state("");
  /** Kind of the note that is being written, where a place that is pressed is to be a pin. */
  pinning = $state(false);
  #asked = 0;
  #of: { design: string; wearer: string; unit: Unit } | null = null;

  async open(design: string, wearer: string, unit: Unit): Promise<void> {
    const asked = ++this.#asked;
    if (this.#of?.design !== design || this.#of.wearer !== wearer) this.told = null;
    this.#of = { design, wearer, unit };
    try {
      const told = await wire.told(design, wearer, unit);
      if (asked === this.#asked) [this.told, this.fault] = [told, ""];
    } catch (error) {
      if (asked === this.#asked) [this.told, this.fault] = [null, sentence(error)];
    }
  }

  get notes(): Step[] {
    return named(this.told?.document?.notes ?? []);
  }

  /** Save the notes as a version; null, or why not. The page is told of it as of what another page saves. */
  async keep(notes: Step[], what: string): Promise<string | null> {
    const [told, of] = [this.told, this.#of];
    if (!told || !of) return words.unreachable;
    const document = { ...(told.document ?? { format: "panelwright-fitting/1" as const, wearer: of.wearer }), notes };
    return this.#done(() => wire.save(document, what, told.version || null));
  }

  move(way: "undo" | "redo"): Promise<string | null> {
    const of = this.#of;
    return of ? this.#done(() => wire.move(of.wearer, way)) : Promise.resolve(words.unreachable);
  }

  async #done(work: () => Promise<unknown>): Promise<string | null> {
    const of = this.#of!;
    try {
      await work();
    } catch (error) {
      return sentence(error);
    }
    await this.open(of.design, of.wearer, of.unit);
    return null;
  }
}

export const fitting = new FittingBook();
