import { Refusal } from "../wire/ask.ts";

const MOST_TRIES = 5;

/** Saves something new under the reference that `propose` gives; while another page is quicker, looks and takes the next. */
export async function savedAsNew(propose: () => string, save: (ref: string) => Promise<unknown>, look: () => Promise<void>): Promise<string> {
  for (let tries = 1; ; tries++) {
    const ref = propose();
    try {
      await save(ref);
      return ref;
    } catch (error) {
      if (!isTaken(error) || tries === MOST_TRIES) throw error;
      await look();
    }
  }
}

/** Whether the server has refused since another page was quicker. */
export const isTaken = (error: unknown): boolean => error instanceof Refusal && error.status === 409;
