import * as wire from "../wire/trace.ts";
import type { Finding } from "../wire/types.ts";
import { settings } from "./settings.svelte.ts";
import { tracing } from "./tracing.svelte.ts";
import { sentence, workroom } from "./workroom.svelte.ts";

/** What the workroom says of the block as it was traced: findings, partners of edges, what truing changes. */
class TracedBlock {
  found = $state.raw<wire.OwnBlock | null>(null);
  fault = $state("");
  busy = $state(false);
  /** Whether the pieces are shown as they were checked, and not the picture. */
  shown = $state(false);
  true = $state(false);
  /** The finding that is shown in the drawing. */
  lit = $state.raw<Finding | null>(null);
  #wearer = $state("");
  #version = $state(0);
  #asked = 0;

  /** Whom it is for; nobody before an audience. */
  get wearer(): string {
    return !settings.presenter && workroom.wearers.some((wearer) => wearer.ref === this.#wearer) ? this.#wearer : "";
  }

  set wearer(ref: string) {
    this.#wearer = ref;
  }

  get asked(): wire.Asked {
    return { wearer: this.wearer || null, unit: settings.unit, true: this.true };
  }

  /** Whether something was traced since it was checked. */
  get stale(): boolean {
    return this.found !== null && (tracing.unsaved || tracing.version !== this.#version);
  }

  forget(): void {
    this.#asked += 1;
    this.found = null;
    this.fault = "";
    this.busy = this.shown = this.true = false;
    this.lit = null;
  }

  /** What is to be said, without what the list of seams says with a button. */
  get findings(): Finding[] {
    return this.found?.findings.filter((finding) => finding.code !== "seam-suggested" && finding.code !== "seam-doubtful") ?? [];
  }

  async check(): Promise<void> {
    const asked = ++this.#asked;
    this.busy = true;
    this.lit = null;
    await tracing.saved();
    const [ref, version] = [tracing.document?.ref ?? "", tracing.version];
    try {
      const found = await wire.ownBlock(ref, this.asked);
      if (asked !== this.#asked) return;
      [this.found, this.#version, this.fault] = [found, version, ""];
      this.shown = true;
    } catch (error) {
      if (asked !== this.#asked) return;
      [this.found, this.fault, this.shown] = [null, sentence(error), false];
    } finally {
      if (asked === this.#asked) this.busy = false;
    }
  }
}

export const tracedBlock = new TracedBlock();
