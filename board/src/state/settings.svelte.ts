import type { Unit } from "./length.ts";

const KEY = "panelwright-board";

/** What the page remembers between visits: how things are shown, and nothing about a wearer. */
class Settings {
  unit = $state<Unit>("cm");
  presenter = $state(false);
  view = $state("flat");
  /** Pixels of the screen itself to a mm, as its person has measured them; null where nobody has. */
  screen = $state<number | null>(null);

  /** Height of the letters on pieces, px. */
  get lettering(): number {
    return this.presenter ? 20 : 13;
  }

  constructor() {
    try {
      const kept = JSON.parse(localStorage.getItem(KEY) ?? "{}") as Record<string, unknown>;
      if (kept.unit === "in") this.unit = "in";
      this.presenter = kept.presenter === true;
      if (typeof kept.view === "string") this.view = kept.view;
      if (typeof kept.screen === "number" && kept.screen > 0) this.screen = kept.screen;
    } catch {
      // A page that may keep nothing works all the same.
    }
  }

  keep(change: Partial<{ unit: Unit; presenter: boolean; view: string; screen: number | null }>): void {
    Object.assign(this, change);
    try {
      localStorage.setItem(KEY, JSON.stringify({ unit: this.unit, presenter: this.presenter, view: this.view, screen: this.screen }));
    } catch {
      // As above.
    }
  }
}

export const settings = new Settings();
