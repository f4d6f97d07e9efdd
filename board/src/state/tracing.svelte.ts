import { Refusal } from "../wire/ask.ts";
import * as wire from "../wire/trace.ts";
import type { Saved } from "../wire/types.ts";
import { words } from "../words.ts";
import { isTaken } from "./fresh.ts";
import { inTurn } from "./in-turn.ts";
import { keptTraces, type Left } from "./kept-traces.svelte.ts";
import { sentence } from "./workroom.svelte.ts";

/** After so long it is tried again to save, ms. */
const AGAIN = 2000;

/** The block that is being traced, saved with each change; one order is on its way at a time. */
class Tracing {
  document = $state.raw<wire.Trace | null>(null);
  version = $state(0);
  canUndo = $state(false);
  canRedo = $state(false);
  fault = $state("");
  said = $state("");
  /** Whether there is something that is not saved yet. */
  unsaved = $state(false);
  #held = $state.raw<symbol | null>(null);
  #ref = "";
  #wanted: string | null = null;
  #turn = inTurn();
  /** The change in the air. */
  #coming: Promise<Saved<wire.Trace>> | null = null;
  #moving: Promise<void> | null = null;
  /** Whether something of it is kept in the browser. */
  #keeps = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  async open(ref: string): Promise<void> {
    if (ref === this.#ref && this.document) return;
    this.close();
    this.#ref = ref;
    await this.#look();
    const left = await keptTraces.of(ref);
    if (left && ref === this.#ref) this.#goOn(left);
  }

  /** Whether something is on its way that takes the place of what is traced: nothing is changed meanwhile. */
  get held(): boolean {
    return this.#held !== null;
  }

  /** Hold everything still until the answer is called. */
  hold(): () => void {
    const mine = (this.#held = Symbol());
    return () => {
      if (this.#held === mine) this.#held = null;
    };
  }

  close(): void {
    this.#leave();
    this.#held = null;
    clearTimeout(this.#timer);
    this.#ref = "";
    this.#turn = inTurn();
    this.#wanted = this.#moving = this.#coming = null;
    this.document = null;
    this.version = 0;
    this.fault = this.said = "";
    this.unsaved = this.canUndo = this.canRedo = this.#keeps = false;
  }

  change(document: wire.Trace, what: string): void {
    if (document === this.document || this.held) return;
    this.document = document;
    this.#wanted = what;
    this.unsaved = true;
    this.said = "";
    if (this.fault) this.#keepHere(what);
    void this.saved();
  }

  /** What the hand does while an undo is on its way is done to what that brings, and waits for it. */
  when(work: () => void): void {
    if (this.#moving) void this.#moving.then(() => this.when(work));
    else work();
  }

  /** Done when everything is saved, or could not be. */
  saved(): Promise<void> {
    return this.#turn(() => this.#save());
  }

  move(way: "undo" | "redo"): Promise<void> {
    if (this.held) return Promise.resolve();
    const moving: Promise<void> = this.#turn(() => this.#move(way)).finally(() => {
      if (this.#moving === moving) this.#moving = null;
    });
    return (this.#moving = moving);
  }

  async #move(way: "undo" | "redo"): Promise<void> {
    await this.#save();
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
        const saved = await (this.#coming = wire.saveTrace(document, what, this.version));
        if (ref !== this.#ref) return;
        this.#coming = null;
        this.fault = "";
        // What was traced meanwhile stays, and is saved next.
        if (this.document === document) this.#take(saved);
        else this.version = saved.version;
        if (this.#keeps && !this.unsaved) this.#keepNoMore();
      } catch (error) {
        if (ref !== this.#ref) return;
        this.#coming = null;
        await this.#refused(error, what);
        return;
      }
    }
  }

  /** The hand goes elsewhere: what was traced last goes to the workroom on top of what is in the air, or is kept here. */
  #leave(): void {
    const [ref, document, coming, version] = [this.#ref, this.document, this.#coming, this.version];
    if (!document || !this.unsaved) return;
    const what = this.#wanted ?? words.trace.what.last;
    const rest = this.#wanted !== null;
    void keptTraces
      .keep(ref, { document, what, based: version })
      .then(async () => {
        const based = coming ? (await coming).version : version;
        if (rest) await wire.saveTrace(document, what, based);
        await keptTraces.drop(ref);
      })
      .catch(() => undefined);
  }

  /** Something traced was left here unsaved: it is saved now. */
  #goOn({ document, what, based }: Left): void {
    if (this.document && JSON.stringify(this.document) === JSON.stringify(document)) {
      this.#keepNoMore();
      return;
    }
    const said = this.document && this.version !== based ? words.trace.restoredOver : words.trace.restored;
    this.#keeps = true;
    if (!this.document) this.version = based;
    this.document = document;
    this.#wanted = what;
    this.unsaved = true;
    this.said = said;
    void this.saved();
  }

  #keepHere(what: string): void {
    this.#keeps = true;
    if (this.document) void keptTraces.keep(this.#ref, { document: this.document, what, based: this.version });
  }

  #keepNoMore(): void {
    this.#keeps = false;
    void keptTraces.drop(this.#ref);
  }

  async #refused(error: unknown, what: string): Promise<void> {
    if (isTaken(error)) {
      this.#keepNoMore();
      await this.#look();
      this.said = words.said.elsewhere;
      return;
    }
    this.fault = sentence(error);
    // What the workroom does not take it will not take again; one that does not answer is asked again.
    if (error instanceof Refusal && error.status >= 400 && error.status < 500) return;
    this.#wanted ??= what;
    this.#keepHere(this.#wanted);
    this.said = words.trace.keptHere;
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
