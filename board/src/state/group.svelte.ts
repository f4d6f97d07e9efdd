import { beginGroup, type GroupCloth, type GroupFacts, type GroupGarment } from "../wire/group.ts";
import { words } from "../words.ts";
import { LongWork } from "./long-work.svelte.ts";
import { printChoice } from "./print.svelte.ts";
import { settings } from "./settings.svelte.ts";

const USUAL_LONGEST = 4000; // mm: a long table

/** The garments that are to be bought together, and what is known of their cloths and prices, until the page is closed. */
class GroupChoice {
  garments = $state.raw<GroupGarment[]>([]);
  title = $state(words.group.usualTitle);
  money = $state("");
  clothSpare = $state(0);
  notionSpare = $state(0);
  longest = $state(USUAL_LONGEST); // mm
  seconds = $state(0);
  cloths = $state.raw<Record<string, GroupCloth>>({});
  prices = $state.raw<Record<string, number>>({});
  readonly work = new LongWork<GroupFacts>();
  /** What the last list was made of: another choice, and the list is of an earlier one. */
  #made = $state("");

  get asked() {
    return {
      title: this.title,
      garments: this.garments,
      cloths: this.cloths,
      notion_prices: this.prices,
      money: this.money.trim(),
      spare: { cloth_percent: this.clothSpare, notions_percent: this.notionSpare },
      longest_lay_cm: this.longest / 10,
      seconds: this.seconds,
    };
  }

  /** Whether something was changed since the list was made. */
  get isStale(): boolean {
    return this.#made !== this.#now;
  }

  get #now(): string {
    return JSON.stringify([this.asked, settings.unit, printChoice.paper]);
  }

  async make(): Promise<void> {
    this.#made = this.#now;
    await this.work.begin(() => beginGroup(this.asked, settings.unit, printChoice.paper));
  }
}

export const group = new GroupChoice();
