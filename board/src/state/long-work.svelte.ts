import * as wire from "../wire/job.ts";
import { sentence } from "./workroom.svelte.ts";

const PAUSE = 350; // ms between two looks

/** One piece of long work at a time: begun, looked at until it is ready, stopped. */
export class LongWork<Facts> {
  job = $state.raw<wire.Job<Facts> | null>(null);
  fault = $state("");
  #turn = 0;

  get busy(): boolean {
    return this.job?.state === "waiting" || this.job?.state === "working";
  }

  get ready(): wire.Job<Facts> | null {
    return this.job?.state === "ready" ? this.job : null;
  }

  /** Begin with a request that answers with a job; what was begun before is forgotten. */
  async begin(ask: () => Promise<wire.Job<Facts>>): Promise<wire.Job<Facts> | null> {
    this.forget();
    const turn = this.#turn;
    this.job = { id: "", state: "waiting", done: 0, total: 0, what: "" };
    try {
      let job = await ask();
      while (turn === this.#turn) {
        this.job = job;
        if (!this.busy) break;
        await new Promise((resolve) => setTimeout(resolve, PAUSE));
        job = await wire.look<Facts>(job.id);
      }
    } catch (error) {
      if (turn === this.#turn) [this.job, this.fault] = [null, sentence(error)];
    }
    if (turn !== this.#turn) return null;
    if (this.job?.state === "refused") this.fault = this.job.message ?? "";
    return this.ready;
  }

  async stop(): Promise<void> {
    const id = this.job?.id;
    this.forget();
    if (id) await wire.stop(id).catch(() => undefined);
  }

  forget(): void {
    this.#turn += 1;
    this.job = null;
    this.fault = "";
  }
}
