import { untrack } from "svelte";
import { Refusal } from "../wire/ask.ts";
import * as wire from "../wire/measure.ts";
import { words } from "../words.ts";
import { isTaken, savedAsNew } from "./fresh.ts";
import type { Unit } from "./length.ts";
import { amountWords, downTheBody, entriesOf, fieldText, freeRef, isRef, measurementDocument, outside, readAmount, type Entries, type Measured } from "./measuring.ts";
import { settings } from "./settings.svelte.ts";
import { sentence, workroom } from "./workroom.svelte.ts";

export type Asked = Measured & { how: string; note?: string };

/** What was typed of one wearer's measurements: what is wrong with it, what the workroom says of it, and saving it. */
export class WearerForm {
  /** Whose measurements are changed; null for somebody new. */
  readonly editing: string | null;
  ref = $state("");
  entries = $state<Entries>({});
  ready = $state(false);
  touched = $state(false);
  saving = $state(false);
  /** Whether saving was tried: then what is missing is a fault. */
  tried = $state(false);
  fault = $state("");
  /** The reference that another page has taken meanwhile, once the measurements are saved under the next. */
  lost = $state("");
  checked = $state.raw<wire.Checked | null>(null);
  refused = $state.raw<{ message: string; where: string } | null>(null);
  #offered: string;
  #version: number | null = null;
  #asked = 0;

  constructor(editing: string | null) {
    this.editing = editing;
    this.#offered = nextRef();
    this.ref = editing ?? this.#offered;
  }

  readonly all = $derived(workroom.vocabulary.measurements as Asked[]);
  readonly needed = $derived(downTheBody(this.all.filter((one) => one.required)));
  readonly others = $derived(downTheBody(this.all.filter((one) => !one.required && !one.for_sleeves)));
  readonly forSleeves = $derived(downTheBody(this.all.filter((one) => one.for_sleeves)));
  readonly inOrder = $derived([...this.needed, ...this.others, ...this.forSleeves]);
  /** What is measured: a number that is refused is none. */
  readonly filled = $derived(this.inOrder.filter((one) => this.entries[one.name]?.text.trim() && !this.faults.has(one.name)));
  readonly missing = $derived(this.needed.filter((one) => !this.entries[one.name]?.text.trim()));
  readonly estimates = $derived(new Map(this.checked?.values.filter((value) => value.estimated).map((value) => [value.name, value.mm ?? value.deg ?? 0])));
  readonly refFault = $derived.by(() => {
    const ref = this.ref.trim();
    if (this.editing) return "";
    if (!isRef(ref)) return words.measure.badRef;
    return workroom.wearers.some((wearer) => wearer.ref === ref) ? words.measure.takenRef(ref) : "";
  });

  /** What is wrong with one field: what was typed, or what the server refuses there. */
  readonly faults = $derived.by(() => {
    const found = new Map<string, string>();
    for (const one of this.inOrder) {
      const fault = this.#faultOf(one);
      if (fault) found.set(one.name, fault);
    }
    const refused = this.refused;
    if (refused && !found.has(refused.where) && this.entries[refused.where]) found.set(refused.where, refused.message);
    return found;
  });

  #faultOf(one: Asked): string {
    const entry = this.entries[one.name];
    if (!entry?.text.trim()) return this.tried && one.required ? words.measure.needed(one.label) : "";
    if (entry.amount === null) return words.measure.unread(one.quantity === "angle" ? "°" : settings.unit);
    const miss = outside(entry.amount, one, settings.unit);
    return miss ? words.measure.outside(miss.below, amountWords(miss.limit, one, settings.unit), miss.meant && `${entry.text.trim()} ${miss.meant}`) : "";
  }

  async begin(): Promise<void> {
    try {
      const saved = this.editing ? await wire.wearer(this.editing) : null;
      this.#version = saved?.version ?? null;
      this.entries = entriesOf(saved?.document ?? {}, this.all, settings.unit);
      this.ready = true;
    } catch (error) {
      this.fault = sentence(error);
    }
  }

  type(one: Asked, text: string): void {
    this.touched = true;
    this.entries[one.name] = { text, amount: text.trim() ? readAmount(text, one, settings.unit) : null };
  }

  measureIn(unit: Unit): void {
    settings.keep({ unit });
    for (const one of this.all) {
      const entry = untrack(() => this.entries[one.name]);
      if (entry && entry.amount !== null) this.entries[one.name] = { ...entry, text: fieldText(entry.amount, one, unit) };
    }
  }

  /** What was typed as a document; for a check without what cannot be. */
  told(possible: boolean): wire.Measurements {
    const kept = possible ? Object.fromEntries(Object.entries(this.entries).filter(([name]) => this.#isPossible(name))) : this.entries;
    return measurementDocument(possible && this.refFault ? "w-0" : this.ref.trim(), settings.unit, kept, this.all);
  }

  #isPossible(name: string): boolean {
    const one = this.all.find((known) => known.name === name);
    const amount = this.entries[name]?.amount;
    return one !== undefined && amount !== null && amount !== undefined && outside(amount, one, settings.unit) === null;
  }

  async check(document: wire.Measurements): Promise<void> {
    const turn = ++this.#asked;
    try {
      const answer = await wire.checkWearer(document);
      if (turn !== this.#asked) return;
      // After a refusal the estimates from before it stay: they are no worse than they were.
      if (!answer.refused) this.checked = answer;
      this.refused = answer.refused;
      this.fault = "";
    } catch (error) {
      if (turn === this.#asked) this.fault = sentence(error);
    }
  }

  /** The wearer that is saved, or null where something is still to be said or put right. */
  async save(): Promise<string | null> {
    this.saving = true;
    try {
      const wanted = this.ref.trim();
      if (this.editing || wanted !== this.#offered) await wire.saveWearer(this.told(false), this.editing ? words.measure.whatChanged : words.measure.whatNew, this.#version);
      else await this.#saveNew();
      this.touched = false;
      await workroom.look();
      if (this.ref.trim() === wanted) return wanted;
      this.lost = wanted;
    } catch (error) {
      await this.#refuse(error);
    } finally {
      this.saving = false;
    }
    return null;
  }

  /** An earlier version saved as the newest, and shown; null, or why that could not be done. */
  async goBack(document: wire.Measurements, what: string): Promise<string | null> {
    try {
      await wire.saveWearer(document, what, this.#version);
      this.touched = false;
      await Promise.all([this.begin(), workroom.look()]);
      return null;
    } catch (error) {
      return sentence(error);
    }
  }

  /** Under the reference that the page has offered, or the next one where another page was quicker. */
  async #saveNew(): Promise<void> {
    const propose = () => (this.ref = this.#offered = nextRef());
    await savedAsNew(propose, () => wire.saveWearer(this.told(false), words.measure.whatNew, null), () => workroom.look());
  }

  async #refuse(error: unknown): Promise<void> {
    if (!this.editing && isTaken(error)) {
      await workroom.look(); // now the reference is marked as somebody else's
      if (!this.refFault) this.fault = sentence(error);
    } else if (error instanceof Refusal && error.where && this.entries[error.where]) {
      this.refused = { message: error.message, where: error.where };
    } else this.fault = sentence(error);
  }
}

const nextRef = (): string => freeRef(workroom.wearers.map((wearer) => wearer.ref));
