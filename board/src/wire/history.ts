import { ask } from "./ask.ts";

/** One version of a wearer or design. */
export interface VersionCard {
  version: number;
  what: string;
  made_at: string;
  current: boolean;
  removed: boolean;
  /** What is different from the version that it was made from. */
  changes: string[];
}

export type Place = "designs" | "wearers";

const path = (place: Place, ref: string) => `api/${place}/${encodeURIComponent(ref)}/versions`;

export const versions = async (place: Place, ref: string, unit: "cm" | "in"): Promise<VersionCard[]> =>
  (await ask<{ versions: VersionCard[] }>(`${path(place, ref)}?units=${unit === "in" ? "inches" : "cm"}`)).versions;

export const earlier = async <Document>(place: Place, ref: string, version: number): Promise<Document> =>
  (await ask<{ document: Document }>(`${path(place, ref)}/${version}`)).document;
