import { ask } from "./ask.ts";
import type { Field, Saved, Step, StepKind } from "./types.ts";

/** A wearer's fitting notes as they are saved. */
export interface Fitting {
  format: "panelwright-fitting/1";
  wearer: string;
  date?: string;
  notes: Step[];
}

export interface NoteKind extends StepKind {
  kind: string;
  fields: Field[];
}

/** The notes beside a design: in words, with the seams of its block that can be pinned. */
export interface Told {
  document: Fitting | null;
  version: number;
  can_undo: boolean;
  can_redo: boolean;
  labels: Record<string, string>;
  seams: { id: string; label: string }[];
  kinds: NoteKind[];
}

const part = encodeURIComponent;
const place = (wearer: string) => `api/fittings/${part(wearer)}`;

export const told = (design: string, wearer: string, unit: "cm" | "in") =>
  ask<Told>(`api/designs/${part(design)}/fitting?wearer=${part(wearer)}&units=${unit === "in" ? "inches" : "cm"}`);

/** Address of the toile's sheets; `version` keeps an older print from being shown. */
export const toilePath = (design: string, wearer: string, sheets: "fitting" | "quarter" | "full", unit: "cm" | "in", version: number) =>
  `api/designs/${part(design)}/toile.pdf?${new URLSearchParams({ wearer, sheets, units: unit === "in" ? "inches" : "cm", paper: unit === "in" ? "letter" : "a4", version: String(version) }).toString()}`;

export const save = (document: Fitting, what: string, basedOn: number | null) =>
  ask<Saved<Fitting>>(place(document.wearer), "PUT", { document, what, based_on: basedOn });

export const move = (wearer: string, way: "undo" | "redo") => ask<Saved<Fitting>>(`${place(wearer)}/${way}`, "POST");
