import * as wire from "../wire/ask.ts";
import type { DesignCard, GroupCard, TraceCard, Vocabulary, WearerCard } from "../wire/types.ts";
import { words } from "../words.ts";
import { route } from "./route.svelte.ts";
import { settings } from "./settings.svelte.ts";

/** What the workroom holds, and its words for measurements and steps. */
class Workroom {
  wearers = $state.raw<WearerCard[]>([]);
  designs = $state.raw<DesignCard[]>([]);
  traces = $state.raw<TraceCard[]>([]);
  groups = $state.raw<GroupCard[]>([]);
  stand = $state("");
  vocabulary = $state.raw<Vocabulary>({ measurements: [], levels: [], lines: [], steps: {}, garment: [], sizes: [] });
  ready = $state(false);
  fault = $state("");
  /** Goes up with each look, so that pictures are fetched anew. */
  looks = $state(0);
  #learnt = false;

  async look(): Promise<void> {
    try {
      const [found] = await Promise.all([wire.workroom(), this.#learn()]);
      this.wearers = found.wearers;
      this.designs = found.designs;
      this.traces = found.traces;
      this.groups = found.groups;
      this.stand = found.stand;
      this.looks += 1;
      this.ready = true;
      this.fault = "";
    } catch (error) {
      this.fault = sentence(error);
    }
  }

  /** The words are asked for until they are there; without them designs are shown and not edited. */
  async #learn(): Promise<void> {
    if (this.#learnt) return;
    try {
      this.vocabulary = await wire.vocabulary();
      this.#learnt = true;
    } catch (error) {
      if (error instanceof wire.Refusal && error.status === 404) return;
      throw error;
    }
  }

  /** The wearer that is chosen, if the workroom has one of that name; the stand otherwise, and before an audience. */
  get wearer(): string {
    const chosen = settings.presenter ? null : route.wearer;
    return chosen && this.wearers.some((wearer) => wearer.ref === chosen) ? chosen : this.stand;
  }
}

/** What a fault says to the maker. */
export function sentence(error: unknown): string {
  if (!(error instanceof wire.Refusal)) return words.refusedSilently;
  if (error.message) return error.message;
  return error.status === 0 ? words.unreachable : error.status === 404 ? words.notFound : words.refusedSilently;
}

export const workroom = new Workroom();
