import { Refusal } from "../wire/ask.ts";
import * as wire from "../wire/trace.ts";
import type { Saved } from "../wire/types.ts";
import { words } from "../words.ts";
import { isTaken } from "./fresh.ts";
import { sentence } from "./workroom.svelte.ts";

/** After so long it is tried again to save, ms. */
const AGAIN = 2000;

/** The block that is being traced, saved with each change; one change is in the air at a time. */
class Tracing {
  document = $state.raw<wire.Trace | null>(null);
  version = $state(0);
  canUndo = $state(false);
  canRedo = $state(false);
  fault = $state("");
  said = $state("");
  /** Whether there is something that is not saved yet. */
  unsaved = $state(false);
  #ref = "";
  #wanted: string | null = null;
  #saving: Promise<void> | null = null;
  /** The version that the change in the air will have. */
  #coming: Promise<number> | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  async open(ref: string): Promise<void> {
    if (ref === this.#ref && this.document) return;
    this.close();
    this.#ref = ref;
    await this.#look();
  }

  close(): void {
    this.#sendOff();
    clearTimeout(this.#timer);
    this.#ref = "";
    this.#wanted = null;
    this.document = null;
    this.version = 0;
    this.fault = this.said = "";
    this.unsaved = this.canUndo = this.canRedo = false;
  }

  change(document: wire.Trace, what: string): void {
    if (document === this.document) return;
    this.document = document;
    this.#wanted = what;
    this.unsaved = true;
    this.said = "";
    void this.saved();
  }

  /** Done when everything is saved, or could not be. */
  saved(): Promise<void> {
    this.#saving ??= this.#save().finally(() => (this.#saving = null));
    return this.#saving;
  }

  async move(way: "undo" | "redo"): Promise<void> {
    await this.saved();
    if (this.unsaved || !(way === "undo" ? this.canUndo : this.canRedo)) return;
    const ref = this.#ref;
    try {
      const found = await wire.moveTrace(ref, way);
      if (ref === this.#ref) this.#take(found);
      this.fault = "";
    } catch (error) {
      this.fault = sentence(error);
    }
  }

  async #save(): Promise<void> {
    clearTimeout(this.#timer);
    while (this.#wanted !== null && this.document) {
      const [ref, document, what] = [this.#ref, this.document, this.#wanted];
      this.#wanted = null;
      try {
        const saved = await this.#sent(wire.saveTrace(document, what, this.version));
        if (ref !== this.#ref) continue;
        this.fault = "";
        // What was traced meanwhile stays, and is saved next.
        if (this.document === document) this.#take(saved);
        else this.version = saved.version;
      } catch (error) {
        if (ref !== this.#ref) continue;
        await this.#refused(error, what);
        return;
      }
    }
  }

  async #sent(save: Promise<Saved<wire.Trace>>): Promise<Saved<wire.Trace>> {
    this.#coming = save.then(({ version }) => version);
    try {
      return await save;
    } finally {
      this.#coming.catch(() => undefined);
      this.#coming = null;
    }
  }

  /** What was traced last goes to the workroom though the hand goes elsewhere, on top of what is in the air. */
  #sendOff(): void {
    const [document, what] = [this.document, this.#wanted];
    if (!document || what === null) return;
    const based = this.#coming ?? Promise.resolve(this.version);
    void based.then((version) => wire.saveTrace(document, what, version)).catch(() => undefined);
  }

  async #refused(error: unknown, what: string): Promise<void> {
    if (isTaken(error)) {
      await this.#look();
      this.said = words.said.elsewhere;
      return;
    }
    this.fault = sentence(error);
    // What the workroom does not take it will not take again; one that does not answer is asked again.
    if (error instanceof Refusal && error.status >= 400 && error.status < 500) return;
    this.#wanted ??= what;
    this.#timer = setTimeout(() => void this.saved(), AGAIN);
  }

  async #look(): Promise<void> {
    const ref = this.#ref;
    try {
      const found = await wire.trace(ref);
      if (ref === this.#ref) this.#take(found);
    } catch (error) {
      if (ref === this.#ref) this.fault = sentence(error);
    }
  }

  #take(found: Saved<wire.Trace>): void {
    this.document = found.document;
    this.version = found.version;
    this.canUndo = found.can_undo;
    this.canRedo = found.can_redo;
    this.unsaved = false;
  }
}

export const tracing = new Tracing();
