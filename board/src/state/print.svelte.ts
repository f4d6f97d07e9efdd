import type { PaperName, Print, PrintScale } from "../wire/paper.ts";
import { board } from "./board.svelte.ts";
import { fitting } from "./fitting.svelte.ts";
import { settings } from "./settings.svelte.ts";

/** What is to be printed and how; it lasts until the page is closed. */
class PrintChoice {
  scale = $state<PrintScale>("quarter");
  #paper = $state<PaperName | null>(null);

  /** Letter where people measure in inches, until they choose. */
  get paper(): PaperName {
    return this.#paper ?? (settings.unit === "in" ? "letter" : "a4");
  }

  set paper(paper: PaperName) {
    this.#paper = paper;
  }

  /** The design that is open, as saved. */
  get of(): Print | null {
    const pattern = board.pattern;
    if (!pattern) return null;
    return { design: pattern.design.ref, version: pattern.version * 1e6 + (fitting.told?.version ?? 0), wearer: pattern.wearer, unit: settings.unit, audience: settings.presenter };
  }
}

export const printChoice = new PrintChoice();
