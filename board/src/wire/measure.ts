import { ask } from "./ask.ts";
import type { Saved } from "./types.ts";

/** A `panelwright-measurements/1` object. */
export interface Measurements {
  format: string;
  ref: string;
  unit: string;
  measurements: Record<string, number | string>;
}

/** What the server says of measurements that may be incomplete. */
export interface Checked {
  values: { name: string; mm?: number; deg?: number; estimated: boolean; formula?: string }[];
  questions: { measurement: string; message: string; remedy?: string; severity: string }[];
  missing?: string[];
  refused: { message: string; where: string } | null;
}

const part = encodeURIComponent;

export const wearer = (ref: string) => ask<Saved<Measurements>>(`api/wearers/${part(ref)}`);

export const checkWearer = (document: Measurements) => ask<Checked>("api/wearers/check", "POST", document);

/** `basedOn` null: there must be no wearer of this reference yet, or the server refuses with status 409. */
export const saveWearer = (document: Measurements, what: string, basedOn: number | null) =>
  ask<Saved<Measurements>>(`api/wearers/${part(document.ref)}`, "PUT", { document, what, based_on: basedOn });

export const removeWearer = (ref: string) => ask<void>(`api/wearers/${part(ref)}`, "DELETE");

export const measuringPicture = (name: string) => `api/measurements/${part(name)}.svg`;

/** A blank chart to write on; on Letter where people measure in inches. */
export const chartPath = (unit: "cm" | "in") => `api/chart.pdf?${unit === "in" ? "units=inches&paper=letter" : "units=cm&paper=a4"}`;
