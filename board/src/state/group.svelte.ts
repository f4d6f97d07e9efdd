import { Refusal } from "../wire/ask.ts";
import { BLANK, beginGroup, keptGroup, removeGroup, saveGroup, type GroupAsked, type GroupFacts } from "../wire/group.ts";
import { BoardSocket } from "../wire/socket.ts";
import { words } from "../words.ts";
import { askedIn, freeRef, newestOf } from "./group-list.ts";
import { inTurn } from "./in-turn.ts";
import { LongWork } from "./long-work.svelte.ts";
import { printChoice } from "./print.svelte.ts";
import { settings } from "./settings.svelte.ts";
import { sentence, workroom } from "./workroom.svelte.ts";

const AGAIN = 2000; // ms until what nobody answered is sent again
const NEW: GroupAsked = { ...BLANK, title: words.group.usualTitle };

/** The garments that are bought together, and what is known of their cloths and prices: every change is saved. */
class GroupChoice {
  ref = $state("");
  asked = $state.raw<GroupAsked>(NEW);
  fault = $state("");
  readonly work = new LongWork<GroupFacts>();
  /** What the last list was made of: another choice, and the list is of an earlier one. */
  #made = $state("");
  /** Of what is shown, as the workroom has it; null where it has none of it yet. */
  version = $state<number | null>(null);
  #kept: GroupAsked = NEW;
  /** Whether somebody has asked for a group that the workroom does not have yet. */
  #begun = false;
  readonly #turn = inTurn();
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** Whether something was changed since the list was made. */
  get isStale(): boolean {
    return this.#made !== this.#now;
  }

  get #now(): string {
    return JSON.stringify([this.asked, settings.unit, printChoice.paper]);
  }

  get #unsaved(): boolean {
    return this.asked !== this.#kept;
  }

  async make(): Promise<void> {
    this.#made = this.#now;
    await this.work.begin(() => beginGroup(this.asked, settings.unit, printChoice.paper));
  }

  /** Change some of it, and save it. */
  change(part: Partial<GroupAsked>): void {
    this.asked = { ...this.asked, ...part };
    void this.#turn(() => this.#save());
  }

  /** Show what the workroom has as long as a page is open, also what another page changes. */
  watch(): () => void {
    const socket = new BoardSocket({
      connected: () => void this.look(),
      lost: () => undefined,
      changed: (kind) => void (kind === "group" && this.look()),
      dragged: () => undefined,
      led: () => undefined,
    });
    void this.look();
    socket.connect();
    return () => socket.close();
  }

  /** What the workroom has now; what could not be saved is saved first. */
  look(): Promise<void> {
    return this.#turn(async () => {
      await this.#save();
      if (this.#unsaved) return;
      const before = this.asked;
      await workroom.look();
      if (workroom.fault) this.fault = workroom.fault;
      else if (this.fault === words.unreachable) this.fault = "";
      if (workroom.fault || this.asked !== before) return;
      const there = workroom.groups.find((group) => group.ref === this.ref);
      // Begun here, and meanwhile another page has taken its reference: both are kept.
      if (there && this.version === null && this.#begun) this.ref = freeRef(workroom.groups);
      else if (there ? there.version !== this.version : this.version !== null || !this.#begun) await this.#showNewest(there?.ref);
    });
  }

  open(ref: string): Promise<void> {
    return this.#turn(async () => {
      await this.#save();
      if (!this.#unsaved) await this.#load(ref);
    });
  }

  /** A group of its own, which the workroom has once something is chosen for it. */
  begin(): Promise<void> {
    return this.#turn(async () => {
      await this.#save();
      if (this.#unsaved) return;
      this.#show(freeRef(workroom.groups), NEW, null);
      this.#begun = true;
    });
  }

  /** Delete the one that is shown now, whichever is shown by the time that it is done. */
  remove(): Promise<void> {
    const ref = this.ref;
    return this.#turn(async () => {
      try {
        await removeGroup(ref);
        if (ref === this.ref) this.#kept = this.asked;
        await workroom.look();
        if (ref === this.ref) await this.#showNewest();
      } catch (error) {
        this.fault = sentence(error);
      }
    });
  }

  async #showNewest(ref = newestOf(workroom.groups)): Promise<void> {
    if (ref) await this.#load(ref);
    else if (this.ref === "" || this.version !== null) this.#show(freeRef([]), NEW, null);
  }

  /** Not in the place of what was changed meanwhile: that is to be saved first. */
  async #load(ref: string): Promise<void> {
    const before = this.asked;
    try {
      const { document, version } = await keptGroup(ref);
      if (this.asked === before) this.#show(ref, askedIn(document), version);
    } catch (error) {
      this.fault = sentence(error);
    }
  }

  #show(ref: string, asked: GroupAsked, version: number | null): void {
    if (ref !== this.ref && this.ref !== "") {
      this.work.forget();
      this.#made = "";
    }
    [this.ref, this.asked, this.#kept, this.version, this.fault] = [ref, asked, asked, version, ""];
    this.#begun = false;
  }

  async #save(): Promise<void> {
    if (!this.#unsaved) return;
    clearTimeout(this.#timer);
    const asked = this.asked;
    try {
      const first = this.version === null;
      const { version } = await saveGroup(this.ref, asked, this.version);
      [this.#kept, this.version, this.fault] = [asked, version, ""];
      if (first) await workroom.look();
    } catch (error) {
      this.fault = sentence(error);
      if (!(error instanceof Refusal)) return;
      if (error.status === 0) this.#timer = setTimeout(() => void this.#turn(() => this.#save()), AGAIN);
      if (error.status === 409) await this.#giveWay();
    }
  }

  /** Another page has changed or deleted it: what is there is shown, and else the newest of the others. */
  async #giveWay(): Promise<void> {
    await workroom.look();
    if (workroom.fault || workroom.groups.some(({ ref }) => ref === this.ref)) {
      await this.#load(this.ref);
      this.fault = words.group.elsewhere;
      return;
    }
    this.#kept = this.asked; // else it would be sent again and again, and no other group could be shown
    await this.#showNewest();
    this.fault = words.group.gone;
  }
}

export const group = new GroupChoice();
