import type { Design, Saved, Vocabulary, Workroom } from "./types.ts";

/** What the server would not do: one sentence for people, and the field that it is about. */
export class Refusal extends Error {
  readonly where: string | null;
  readonly status: number;

  constructor(message: string, where: string | null, status: number) {
    super(message);
    this.where = where;
    this.status = status;
  }
}

/** One request, with a file or else with JSON; the answer's JSON. Throws a Refusal, also where the server cannot be reached (status 0). */
export async function ask<Answer>(path: string, method = "GET", body?: unknown): Promise<Answer> {
  const json = { body: JSON.stringify(body), headers: { "Content-Type": "application/json" } };
  const told = body === undefined ? {} : body instanceof Blob ? { body } : json;
  let answer: Response;
  try {
    answer = await fetch(path, { method, ...told });
  } catch {
    throw new Refusal("", null, 0);
  }
  if (!answer.ok) {
    const said = (await answer.json().catch(() => ({}))) as { message?: string; where?: string };
    throw new Refusal(said.message ?? "", said.where ?? null, answer.status);
  }
  return (answer.status === 204 ? undefined : await answer.json()) as Answer;
}

const part = encodeURIComponent;

export const workroom = () => ask<Workroom>("api/workroom");
export const vocabulary = () => ask<Vocabulary>("api/vocabulary");
export const design = (ref: string) => ask<Saved<Design>>(`api/designs/${part(ref)}`);

/** `basedOn` null: there must be no design of this reference yet, or the server refuses with status 409. */
export const saveDesign = (document: Design, what: string, basedOn: number | null) =>
  ask<Saved<Design>>(`api/designs/${part(document.ref)}`, "PUT", { document, what, based_on: basedOn });

export const removeDesign = (ref: string) => ask<void>(`api/designs/${part(ref)}`, "DELETE");

/** `large`: the names of the pieces can be read from afar. */
export const picturePath = (designRef: string, wearer: string, large: boolean) =>
  `api/designs/${part(designRef)}/picture.svg?wearer=${part(wearer)}${large ? "&names=large" : ""}`;
