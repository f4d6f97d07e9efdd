/**
 * Where the page is: `#/` the start, `#/make/DESIGN/VIEW` a design, `#/PAGE` another page. The wearer stands in the
 * entry of the history, not in the address, so that an audience does not read it there.
 */
class Route {
  page = $state("start");
  design = $state<string | null>(null);
  view = $state<string | null>(null);
  wearer = $state<string | null>(null);

  constructor() {
    this.#read();
    addEventListener("popstate", () => this.#read());
    addEventListener("hashchange", () => this.#read());
  }

  go(page: string, more: { design?: string; view?: string; wearer?: string | null } = {}): void {
    const parts = page === "start" ? [] : [page, more.design, more.view].filter((part) => part !== undefined);
    const wearer = more.wearer === undefined ? this.wearer : more.wearer;
    history.pushState({ wearer }, "", "#/" + parts.map(encodeURIComponent).join("/"));
    this.#read();
  }

  /** Another view or wearer of the same place: going back leaves the place. */
  turn(more: { view?: string; wearer?: string }): void {
    const view = more.view ?? this.view ?? undefined;
    const parts = ["make", this.design ?? "", view].filter((part) => part !== undefined);
    const hash = this.page === "make" ? "#/" + parts.map(encodeURIComponent).join("/") : location.hash;
    history.replaceState({ wearer: more.wearer ?? this.wearer }, "", hash || "#/");
    this.#read();
  }

  #read(): void {
    const parts = location.hash.replace(/^#\/?/, "").split("/").filter(Boolean).map(plain);
    this.page = parts[0] ?? "start";
    this.design = parts[1] ?? null;
    this.view = parts[2] ?? null;
    const kept = (history.state as { wearer?: unknown } | null)?.wearer;
    if (typeof kept === "string") this.wearer = kept;
  }
}

function plain(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export const route = new Route();
