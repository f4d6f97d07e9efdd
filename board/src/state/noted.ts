import type { Step } from "../wire/types.ts";
import { freeName } from "./names.ts";

/** A fitting note that is written: a new one, or a change of one in the list. */
export interface Draft {
  note: Step;
  fresh: boolean;
}

/**
 * The notes as they are now with the draft among them. Another page may have added, changed or removed some since the
 * draft was begun: a note is found by its uid, one that is gone comes back at the end, and a new one takes a free uid.
 */
export function withDraft(notes: readonly Step[], { note, fresh }: Draft): Step[] {
  const taken = notes.map((known) => known.uid);
  if (fresh) return [...notes, { ...note, uid: freeName("note", taken) }];
  return taken.includes(note.uid) ? notes.map((known) => (known.uid === note.uid ? note : known)) : [...notes, note];
}

/** Notes of a file may have no uid: the one that they are told under, by their place in it. */
export const named = (notes: readonly Step[]): Step[] => notes.map((note, k) => ({ ...note, uid: note.uid ?? `note-${k + 1}` }));
